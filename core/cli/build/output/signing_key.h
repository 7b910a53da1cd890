// Which key signs, and where its password comes from.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "core/seal/signer.h"
#include "core/trace/results_document.h"

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace panel_dossier {

/// Where the signing key's password comes from. Never from the command line, where other users of the machine could
/// read it.
struct PasswordSource {
  std::optional<int> file_descriptor;
  std::string environment_variable;
};

/// In the output folder: the certificate of the dossier's signature, for whoever hands it over another way.
inline constexpr const char* kSigningCertificateFile = "signing-certificate.pem";

struct SigningOptions {
  std::filesystem::path key;  ///< PKCS#12, or the URI `pkcs11:…` of a key in a token; empty: a demonstration key
  std::filesystem::path token_module;  ///< PKCS#11 library of the token's maker

  bool uses_token() const { return key.string().rfind("pkcs11:", 0) == 0; }
  PasswordSource password;
  std::string time_stamp_server;  ///< URL; empty: signatures have no time stamp
};

/// Says what is wrong with the value of an option that must not be empty; empty when nothing is. An unset variable of a
/// script must not turn into a dossier without the key or the time stamp that was asked for.
std::string empty_value(const std::string& value);

/// Declares the options that name key, password and time-stamp server. Returns that of the key.
CLI::Option* add_key_options(CLI::App& command, SigningOptions& options);

/// Throws std::runtime_error for a key or a password that cannot be used: it stops the build before anything is
/// computed. Refused too is a key whose certificate is not valid by the clock, whatever time the build is given, and a
/// key file that others than its owner may write, for they choose who signs.
std::unique_ptr<Signer> make_signer(const SigningOptions& options, const std::string& time_utc);

/// In place of a key for issue where the build is incomplete, which then says so; null where the chosen signer may
/// sign.
std::unique_ptr<Signer> demonstration_if_incomplete(BuildSummary& build, const Signer& chosen);

/// What is to be said of a key that is used all the same: that others may read its file. Empty when all is well.
std::string key_warning(const SigningOptions& options);

}  // namespace panel_dossier
