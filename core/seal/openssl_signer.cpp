#include "core/seal/openssl_signer.h"

#include <openssl/evp.h>

#include <utility>

#include "core/seal/certificate.h"
#include "core/seal/cms_form.h"
#include "core/seal/openssl_handle.h"

namespace panel_dossier {

namespace {

using Key = Handle<EVP_PKEY, EVP_PKEY_free>;

void require_usable(EVP_PKEY* key) {
  constexpr int kLeastRsaBits = 2048;  // SOG-IS and NIST SP 800-131A floor for new signatures; from memory
  const int type = EVP_PKEY_get_base_id(key);
  if (type != EVP_PKEY_RSA && type != EVP_PKEY_EC) {
    throw std::runtime_error("its key is neither an RSA nor an elliptic curve key; use one of these");
  }
  if (type == EVP_PKEY_RSA && EVP_PKEY_get_bits(key) < kLeastRsaBits) {
    throw std::runtime_error("its RSA key has " + std::to_string(EVP_PKEY_get_bits(key)) +
                             " bits; use one of at least 2048");
  }
}

class OpenSslSigner : public Signer {
 public:
  OpenSslSigner(Key key, std::vector<std::string> certificates)
      : key_(std::move(key)),
        certificates_(std::move(certificates)),
        certificate_(read_certificate(certificates_.at(0))) {}

  std::string sign(std::string_view content) const override {
    CmsParts parts{certificates_, signed_attributes(content, certificates_), {}};
    parts.signature = signature_over(parts.signed_attributes);
    return compose_cms(parts);
  }

  std::string subject() const override { return subject_text(certificate_.get()); }

  bool for_issue() const override { return !is_demonstration(certificate_.get()); }

  std::size_t signature_bytes() const override {
    // Attributes grow with each certificate they name; object ids, tags and lengths take less than the rest.
    constexpr std::size_t kFixed = 1024;
    constexpr std::size_t kPerCertificate = 512;
    std::size_t size = kFixed + static_cast<std::size_t>(EVP_PKEY_get_size(key_.get()));
    for (const auto& certificate : certificates_) size += 2 * certificate.size() + kPerCertificate;
    return size;
  }

 private:
  Key key_;
  std::vector<std::string> certificates_;
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

}  // namespace

std::unique_ptr<Signer> make_openssl_signer(evp_pkey_st* key, std::vector<std::string> certificates) {
  Key owned_key(key);
  require_usable(key);
  return std::make_unique<OpenSslSigner>(std::move(owned_key), std::move(certificates));
}

}  // namespace panel_dossier
