// A signer that asks nothing of its key and certificate, as an attacker would not.
#pragma once

#include <openssl/bio.h>
#include <openssl/evp.h>
#include <openssl/pem.h>

#include <string>
#include <vector>

#include "core/seal/certificate.h"
#include "core/seal/cms_form.h"
#include "core/seal/signer.h"
#include "tests/seal/seal_support.h"

namespace panel_dossier::testing {

class UncheckedSigner : public Signer {
 public:
  /// Of a key and a certificate in PEM.
  UncheckedSigner(const std::filesystem::path& key, const std::filesystem::path& certificate) {
    const std::string key_bytes = bytes_of(key);
    const Memory key_memory(BIO_new_mem_buf(key_bytes.data(), static_cast<int>(key_bytes.size())));
    key_.reset(PEM_read_bio_PrivateKey(key_memory.get(), nullptr, nullptr, nullptr));
    const std::string bytes = bytes_of(certificate);
    const Memory memory(BIO_new_mem_buf(bytes.data(), static_cast<int>(bytes.size())));
    certificate_.reset(PEM_read_bio_X509(memory.get(), nullptr, nullptr, nullptr));
    REQUIRE((key_ && certificate_));
    certificates = {certificate_octets(certificate_.get())};
  }

  std::string sign(const Digest& content) const override {
    CmsParts parts{certificates, signed_attributes(content, certificates), {}, {}};
    using Context = Handle<EVP_MD_CTX, EVP_MD_CTX_free>;
    const Context context(EVP_MD_CTX_new());
    parts.signature.resize(static_cast<std::size_t>(EVP_PKEY_get_size(key_.get())));
    std::size_t size = parts.signature.size();
    EVP_DigestSignInit(context.get(), nullptr, EVP_sha256(), nullptr, key_.get());
    const int done = EVP_DigestSign(context.get(), reinterpret_cast<unsigned char*>(parts.signature.data()), &size,
                                    reinterpret_cast<const unsigned char*>(parts.signed_attributes.data()),
                                    parts.signed_attributes.size());
    REQUIRE(done == 1);
    parts.signature.resize(size);
    return compose_cms(parts);
  }
  std::string subject() const override { return subject_text(certificate_.get()); }
  std::string certificate_pem() const override { return panel_dossier::certificate_pem(certificate_.get()); }
  std::string validity_fault_at(const std::string&) const override { return {}; }
  bool for_issue() const override { return true; }
  std::size_t signature_bytes() const override { return 8192; }

  std::vector<std::string> certificates;  ///< that the signature carries, the signer's first

 private:
  using Memory = Handle<BIO, BIO_free_all>;

  Handle<EVP_PKEY, EVP_PKEY_free> key_;
  Certificate certificate_;
};

}  // namespace panel_dossier::testing
