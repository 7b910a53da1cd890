// What signs: the key of a PKCS#12 file, or a fresh one for demonstrations.
#pragma once

#include <cstddef>
#include <filesystem>
#include <memory>
#include <string>

#include "core/intake/document/sha256.h"
#include "core/seal/time/time_stamper.h"

namespace panel_dossier {

/// Where the time stamps of signatures come from; null: they have none.
using TimeStamping = std::shared_ptr<const TimeStamper>;

/// Holds one private key and certificate. Kept apart from OpenSSL's types so that callers need no OpenSSL headers.
class Signer {
 public:
  virtual ~Signer() = default;
  /// Detached CMS over content of that SHA-256 digest: DER, SHA-256, signing-certificate-v2, no signing-time attribute
  /// (ETSI EN 319 142-1); with a time stamp over the signature where the signer was made with a source of them. Throws
  /// std::runtime_error when the key cannot sign or no time stamp is to be had.
  virtual std::string sign(const Digest& content) const = 0;
  /// Subject of the certificate, as RFC 2253 text.
  virtual std::string subject() const = 0;
  /// The certificate as PEM, to hand over another way than the dossier.
  virtual std::string certificate_pem() const = 0;
  /// Why the certificate is not valid at the time (`expired since …`), or empty when it is. Throws std::runtime_error
  /// when the text is no time.
  virtual std::string validity_fault_at(const std::string& time_utc) const = 0;
  /// False for the demonstration key.
  virtual bool for_issue() const = 0;
  /// Upper bound of the bytes `sign` returns.
  virtual std::size_t signature_bytes() const = 0;
};

/// Reads a PKCS#12 file. Throws std::runtime_error naming the file and what is wrong (wrong password, no key,
/// certificate expired or not yet valid at `time_utc`, key and certificate do not match).
std::unique_ptr<Signer> load_signer(const std::filesystem::path& pkcs12, const std::string& password,
                                    const std::string& time_utc, TimeStamping stamps = {});

/// Uses the key of that URI (RFC 7512, `pkcs11:…`) in a token through the PKCS#11 module. Throws std::runtime_error
/// naming the key and what is wrong, as load_signer does.
std::unique_ptr<Signer> load_token_signer(const std::string& uri, const std::filesystem::path& module,
                                          const std::string& pin, const std::string& time_utc,
                                          TimeStamping stamps = {});

/// Makes a fresh self-signed key that marks the dossier as not signed for issue.
std::unique_ptr<Signer> make_demonstration_signer(TimeStamping stamps = {});

}  // namespace panel_dossier
