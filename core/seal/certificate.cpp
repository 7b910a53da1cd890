#include "core/seal/certificate.h"

#include <openssl/asn1.h>
#include <openssl/bio.h>
#include <openssl/pem.h>
#include <openssl/x509.h>

namespace panel_dossier {

namespace {

using Memory = Handle<BIO, BIO_free_all>;

std::string text_in(BIO* memory) {
  char* data = nullptr;
  const long size = BIO_get_mem_data(memory, &data);
  return size <= 0 ? std::string() : std::string(data, static_cast<std::size_t>(size));
}

std::string name_text(const X509_NAME* name) {
  constexpr unsigned long kUtf8 = XN_FLAG_RFC2253 & ~static_cast<unsigned long>(ASN1_STRFLGS_ESC_MSB);
  const auto memory = owned<Memory>(BIO_new(BIO_s_mem()), "print a name");
  X509_NAME_print_ex(memory.get(), name, 0, kUtf8);
  return text_in(memory.get());
}

std::string time_text(const ASN1_TIME* time) {
  const auto memory = owned<Memory>(BIO_new(BIO_s_mem()), "print a time");
  ASN1_TIME_print(memory.get(), time);
  return text_in(memory.get());
}

}  // namespace

void CertificateFree::operator()(x509_st* certificate) const {
  X509_free(certificate);
}

Certificate read_certificate(const std::string& octets) {
  const auto* in = reinterpret_cast<const unsigned char*>(octets.data());
  return owned<Certificate>(d2i_X509(nullptr, &in, static_cast<long>(octets.size())), "read a certificate");
}

std::string certificate_octets(x509_st* certificate) {
  return encoded(certificate, i2d_X509);
}

std::string certificate_pem(x509_st* certificate) {
  const auto memory = owned<Memory>(BIO_new(BIO_s_mem()), "write a certificate");
  if (PEM_write_bio_X509(memory.get(), certificate) != 1) throw std::runtime_error("cannot write a certificate");
  return text_in(memory.get());
}

std::string subject_text(x509_st* certificate) {
  return name_text(X509_get_subject_name(certificate));
}

std::string issuer_text(x509_st* certificate) {
  return name_text(X509_get_issuer_name(certificate));
}

bool is_demonstration(x509_st* certificate) {
  return subject_text(certificate).find(kDemonstrationName) != std::string::npos;
}

std::string validity_fault(x509_st* certificate, std::time_t time) {
  const ASN1_TIME* from = X509_get0_notBefore(certificate);
  const ASN1_TIME* until = X509_get0_notAfter(certificate);
  if (ASN1_TIME_cmp_time_t(from, time) > 0) return "not valid before " + time_text(from);
  if (ASN1_TIME_cmp_time_t(until, time) < 0) return "expired since " + time_text(until);
  return {};
}

}  // namespace panel_dossier
