#include "core/seal/certificates/pem_text.h"

#include <openssl/bio.h>
#include <openssl/err.h>
#include <openssl/pem.h>
#include <openssl/x509.h>

#include "core/seal/certificate.h"

namespace panel_dossier {

PemContents read_pem(const std::string& bytes) {
  using Memory = Handle<BIO, BIO_free_all>;
  const auto memory = owned<Memory>(BIO_new_mem_buf(bytes.data(), static_cast<int>(bytes.size())), "read PEM");
  STACK_OF(X509_INFO)* infos = PEM_X509_INFO_read_bio(memory.get(), nullptr, nullptr, nullptr);
  ERR_clear_error();
  PemContents contents;
  for (int i = 0; i < sk_X509_INFO_num(infos); ++i) {
    const X509_INFO* info = sk_X509_INFO_value(infos, i);
    if (info->x509 != nullptr) contents.certificates.push_back(certificate_octets(info->x509));
    if (info->crl != nullptr) contents.revocation_lists.push_back(encoded(info->crl, i2d_X509_CRL));
  }
  sk_X509_INFO_pop_free(infos, X509_INFO_free);
  return contents;
}

}  // namespace panel_dossier
