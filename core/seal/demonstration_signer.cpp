// A fresh self-signed key for runs without a key of the practice.
#include <openssl/evp.h>
#include <openssl/rand.h>
#include <openssl/rsa.h>
#include <openssl/x509v3.h>

#include "core/seal/certificate.h"
#include "core/seal/openssl_handle.h"
#include "core/seal/openssl_signer.h"
#include "core/seal/signer.h"

namespace panel_dossier {

namespace {

using Key = Handle<EVP_PKEY, EVP_PKEY_free>;
using Extension = Handle<X509_EXTENSION, X509_EXTENSION_free>;

void require(bool done) {
  if (!done) throw std::runtime_error("cannot make the demonstration certificate");
}

void add_extension(X509* certificate, int nid, const char* value) {
  X509V3_CTX context;
  X509V3_set_ctx_nodb(&context);
  X509V3_set_ctx(&context, certificate, certificate, nullptr, nullptr, 0);
  const auto extension =
      owned<Extension>(X509V3_EXT_conf_nid(nullptr, &context, nid, value), "make the demonstration certificate");
  require(X509_add_ext(certificate, extension.get(), -1) == 1);
}

void set_serial(X509* certificate) {
  std::uint64_t serial = 0;
  require(RAND_bytes(reinterpret_cast<unsigned char*>(&serial), sizeof serial) == 1);
  require(ASN1_INTEGER_set_uint64(X509_get_serialNumber(certificate), serial >> 1U) == 1);
}

Certificate self_signed(EVP_PKEY* key) {
  auto certificate = owned<Certificate>(X509_new(), "make the demonstration certificate");
  constexpr long kVersion3 = 2;
  require(X509_set_version(certificate.get(), kVersion3) == 1);
  set_serial(certificate.get());
  // A build time may be fixed to any date, so the key has no end of its own (RFC 5280 (2008), 4.1.2.5).
  require(ASN1_TIME_set_string(X509_getm_notBefore(certificate.get()), "19700101000000Z") == 1);
  require(ASN1_TIME_set_string(X509_getm_notAfter(certificate.get()), "99991231235959Z") == 1);
  X509_NAME* name = X509_get_subject_name(certificate.get());
  const auto* common_name = reinterpret_cast<const unsigned char*>(kDemonstrationName.data());
  require(X509_NAME_add_entry_by_txt(name, "CN", MBSTRING_UTF8, common_name,
                                     static_cast<int>(kDemonstrationName.size()), -1, 0) == 1);
  require(X509_set_issuer_name(certificate.get(), name) == 1);
  require(X509_set_pubkey(certificate.get(), key) == 1);
  add_extension(certificate.get(), NID_basic_constraints, "critical,CA:FALSE");
  add_extension(certificate.get(), NID_key_usage, "critical,digitalSignature,nonRepudiation");
  add_extension(certificate.get(), NID_subject_key_identifier, "hash");
  require(X509_sign(certificate.get(), key, EVP_sha256()) > 0);
  return certificate;
}

}  // namespace

std::unique_ptr<Signer> make_demonstration_signer() {
  constexpr std::size_t kRsaBits = 3072;
  auto key = owned<Key>(EVP_RSA_gen(kRsaBits), "make the demonstration key");
  const Certificate certificate = self_signed(key.get());
  return make_openssl_signer(key.release(), {certificate_octets(certificate.get())});
}

}  // namespace panel_dossier
