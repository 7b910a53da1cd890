#include "core/seal/signer.h"

#include <openssl/err.h>
#include <openssl/evp.h>
#include <openssl/pkcs12.h>
#include <openssl/rand.h>
#include <openssl/rsa.h>
#include <openssl/x509v3.h>

#include <cstdint>
#include <stdexcept>
#include <utility>
#include <vector>

#include "core/seal/certificate.h"
#include "core/seal/certificates/certificate_rules.h"
#include "core/seal/cms_form.h"
#include "core/seal/file_bytes.h"
#include "core/seal/pdf_date.h"
#include "core/seal/token/token_key.h"

namespace panel_dossier {

namespace {

using Key = Handle<EVP_PKEY, EVP_PKEY_free>;

/// Over a private key held in memory.
class OpenSslSigner : public Signer {
 public:
  OpenSslSigner(Key key, std::vector<std::string> certificates, TimeStamping stamps)
      : key_(std::move(key)),
        certificates_(std::move(certificates)),
        stamps_(std::move(stamps)),
        certificate_(read_certificate(certificates_.at(0))) {}

  std::string sign(const Digest& content) const override {
    CmsParts parts{certificates_, signed_attributes(content, certificates_), {}, {}};
    parts.signature = signature_over(parts.signed_attributes);
    if (stamps_) parts.time_stamp = stamps_->token(parts.signature);
    return compose_cms(parts);
  }

  std::string subject() const override { return subject_text(certificate_.get()); }

  std::string certificate_pem() const override { return panel_dossier::certificate_pem(certificate_.get()); }

  std::string validity_fault_at(const std::string& time_utc) const override {
    return validity_fault(certificate_.get(), seconds_from_iso(time_utc));
  }

  bool for_issue() const override { return !is_demonstration(certificate_.get()); }

  std::size_t signature_bytes() const override {
    // Attributes grow with each certificate they name; object ids, tags and lengths take less than the rest.
    constexpr std::size_t kFixed = 1024;
    constexpr std::size_t kPerCertificate = 512;
    std::size_t size = kFixed + static_cast<std::size_t>(EVP_PKEY_get_size(key_.get()));
    for (const auto& certificate : certificates_) size += 2 * certificate.size() + kPerCertificate;
    // Two certificates of one form differ by a few bytes, as an elliptic curve's signatures do: whole steps keep two
    // builds with demonstration keys of their own at one length.
    constexpr std::size_t kStep = 512;
    size += kStep - size % kStep;
    return size + (stamps_ ? kMostTokenBytes : 0);
  }

 private:
  Key key_;
  std::vector<std::string> certificates_;
  TimeStamping stamps_;
  Certificate certificate_;

  std::string signature_over(const std::string& octets) const {
    using Context = Handle<EVP_MD_CTX, EVP_MD_CTX_free>;
    const auto context = owned<Context>(EVP_MD_CTX_new(), "sign");
    const auto* data = reinterpret_cast<const unsigned char*>(octets.data());
    std::string signature(static_cast<std::size_t>(EVP_PKEY_get_size(key_.get())), '\0');
    std::size_t size = signature.size();
    if (EVP_DigestSignInit(context.get(), nullptr, EVP_sha256(), nullptr, key_.get()) != 1 ||
        EVP_DigestSign(context.get(), reinterpret_cast<unsigned char*>(signature.data()), &size, data, octets.size()) !=
            1) {
      throw std::runtime_error("the key of '" + subject() + "' cannot sign");
    }
    signature.resize(size);
    return signature;
  }
};

using Pkcs12 = Handle<PKCS12, PKCS12_free>;

/// What a PKCS#12 file holds.
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
  std::string unfit = signing_fault(content.certificate.get());
  if (unfit.empty()) unfit = issuer_fault({content.certificates.begin() + 1, content.certificates.end()});
  if (!unfit.empty()) throw std::runtime_error(unfit);
}

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

std::unique_ptr<Signer> load_signer(const std::filesystem::path& pkcs12, const std::string& password,
                                    const std::string& time_utc, TimeStamping stamps) {
  try {
    const Pkcs12 container = parse_container(read_bytes(pkcs12));
    require_password(container.get(), password);
    Content content = open_container(container.get(), password);
    require_fit(content, time_utc);
    return std::make_unique<OpenSslSigner>(std::move(content.key), std::move(content.certificates), std::move(stamps));
  } catch (const std::runtime_error& error) {
    throw std::runtime_error("key file '" + pkcs12.string() + "': " + error.what());
  }
}

std::unique_ptr<Signer> load_token_signer(const std::string& uri, const std::filesystem::path& module,
                                          const std::string& pin, const std::string& time_utc, TimeStamping stamps) {
  try {
    TokenKey token = load_token_key(uri, module, pin);
    Content content{std::move(token.key), {certificate_octets(token.certificate.get())}, std::move(token.certificate)};
    require_fit(content, time_utc);
    return std::make_unique<OpenSslSigner>(std::move(content.key), std::move(content.certificates), std::move(stamps));
  } catch (const std::runtime_error& error) {
    throw std::runtime_error("key '" + uri + "': " + error.what());
  }
}

std::unique_ptr<Signer> make_demonstration_signer(TimeStamping stamps) {
  // Of this curve a key is made at once, where one for RSA takes most of a small build.
  auto key = owned<Key>(EVP_EC_gen("P-256"), "make the demonstration key");
  const Certificate certificate = self_signed(key.get());
  return std::make_unique<OpenSslSigner>(
      std::move(key), std::vector<std::string>{certificate_octets(certificate.get())}, std::move(stamps));
}

}  // namespace panel_dossier
