// Signers from PKCS#12 files.
#include <openssl/err.h>
#include <openssl/pkcs12.h>
#include <openssl/x509v3.h>

#include <cstdint>

#include "core/seal/certificate.h"
#include "core/seal/file_bytes.h"
#include "core/seal/openssl_handle.h"
#include "core/seal/openssl_signer.h"
#include "core/seal/pdf_date.h"
#include "core/seal/signer.h"

namespace panel_dossier {

namespace {

using Pkcs12 = Handle<PKCS12, PKCS12_free>;
using Key = Handle<EVP_PKEY, EVP_PKEY_free>;

struct Content {
  Key key;
  std::vector<std::string> certificates;
  Certificate certificate;
};

Pkcs12 parse_container(const std::string& bytes) {
  const auto* in = reinterpret_cast<const unsigned char*>(bytes.data());
  Pkcs12 container(d2i_PKCS12(nullptr, &in, static_cast<long>(bytes.size())));
  if (!container) throw std::runtime_error("it is no PKCS#12 file");
  return container;
}

/// The integrity code is checked first, because only it tells a wrong password from an unreadable cipher.
void require_password(PKCS12* container, const std::string& password) {
  if (PKCS12_mac_present(container) != 1) return;
  const bool right = PKCS12_verify_mac(container, password.c_str(), -1) == 1 ||
                     (password.empty() && PKCS12_verify_mac(container, nullptr, 0) == 1);
  if (!right) throw std::runtime_error("the password is wrong, or the file was changed");
}

Content open_container(PKCS12* container, const std::string& password) {
  EVP_PKEY* key = nullptr;
  X509* certificate = nullptr;
  STACK_OF(X509)* issuers = nullptr;
  ERR_clear_error();
  const bool opened = PKCS12_parse(container, password.c_str(), &key, &certificate, &issuers) == 1;
  Content content{Key(key), {}, Certificate(certificate)};
  if (certificate != nullptr) content.certificates.push_back(certificate_octets(certificate));
  for (int i = 0; i < sk_X509_num(issuers); ++i) {
    content.certificates.push_back(certificate_octets(sk_X509_value(issuers, i)));
  }
  sk_X509_pop_free(issuers, X509_free);
  if (!opened) {
    const char* reason = ERR_reason_error_string(ERR_peek_last_error());
    throw std::runtime_error(std::string("it cannot be decrypted (") + (reason == nullptr ? "unknown" : reason) +
                             "); if it was made by an old program, export it again with AES encryption");
  }
  return content;
}

void require_fit(const Content& content, const std::string& time_utc) {
  if (!content.key) throw std::runtime_error("it holds no private key");
  if (!content.certificate) throw std::runtime_error("it holds no certificate that belongs to its private key");
  const std::string fault = validity_fault(content.certificate.get(), seconds_from_iso(time_utc));
  if (!fault.empty()) {
    throw std::runtime_error("the certificate of '" + subject_text(content.certificate.get()) + "' is " + fault +
                             " (build time " + time_utc + ")");
  }
  const std::uint32_t usage = X509_get_key_usage(content.certificate.get());
  if ((usage & (KU_DIGITAL_SIGNATURE | KU_NON_REPUDIATION)) == 0) {
    throw std::runtime_error("the certificate of '" + subject_text(content.certificate.get()) +
                             "' is not meant for signing documents (key usage)");
  }
}

}  // namespace

std::unique_ptr<Signer> load_signer(const std::filesystem::path& pkcs12, const std::string& password,
                                    const std::string& time_utc) {
  try {
    const Pkcs12 container = parse_container(read_bytes(pkcs12));
    require_password(container.get(), password);
    Content content = open_container(container.get(), password);
    require_fit(content, time_utc);
    return make_openssl_signer(content.key.release(), std::move(content.certificates));
  } catch (const std::runtime_error& error) {
    throw std::runtime_error("key file '" + pkcs12.string() + "': " + error.what());
  }
}

}  // namespace panel_dossier
