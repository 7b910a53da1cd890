#include "core/cli/build/output/signing_key.h"

#include <sys/stat.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <array>
#include <cerrno>
#include <cstddef>
#include <cstdlib>
#include <cstring>
#include <stdexcept>
#include <utility>

#include "core/cli/build/nights/clock.h"

namespace panel_dossier {

namespace {

std::string read_descriptor(int descriptor) {
  constexpr std::size_t kLongestPassword = 4096;
  std::string password;
  std::array<char, 256> buffer{};
  for (;;) {
    const ssize_t count = ::read(descriptor, buffer.data(), buffer.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) {
      throw std::runtime_error("cannot read the key's password from file descriptor " + std::to_string(descriptor) +
                               ": " + std::strerror(errno));
    }
    if (count == 0) break;
    password.append(buffer.data(), static_cast<std::size_t>(count));
    if (password.size() > kLongestPassword) throw std::runtime_error("the key's password is longer than 4096 bytes");
  }
  while (!password.empty() && (password.back() == '\n' || password.back() == '\r')) password.pop_back();
  return password;
}

/// The password without its final line break; empty when neither source is given. Throws std::runtime_error naming the
/// source that cannot be read.
std::string read_password(const PasswordSource& source) {
  if (source.file_descriptor) return read_descriptor(*source.file_descriptor);
  if (source.environment_variable.empty()) return {};
  const char* value = std::getenv(source.environment_variable.c_str());
  if (value == nullptr) {
    throw std::runtime_error("environment variable '" + source.environment_variable +
                             "' is not set; set it to the key's password");
  }
  return value;
}

/// None where the file cannot be looked at; reading it then says why.
std::optional<mode_t> mode_of(const std::filesystem::path& file) {
  struct stat facts {};
  if (file.empty() || ::stat(file.c_str(), &facts) != 0) return std::nullopt;
  return facts.st_mode;
}

void require_own(const std::filesystem::path& key) {
  const auto mode = mode_of(key);
  if (!mode || (*mode & (S_IWGRP | S_IWOTH)) == 0) return;
  throw std::runtime_error("the key file '" + key.string() +
                           "' can be written by others than its owner, who could put another key there; run 'chmod "
                           "600' on it and make sure of the key");
}

}  // namespace

std::string empty_value(const std::string& value) {
  return value.empty() ? "it is empty; leave the option out, or give it a value" : std::string();
}

CLI::Option* add_key_options(CLI::App& command, SigningOptions& options) {
  CLI::Option* key = command
                         .add_option("--sign-key", options.key,
                                     "PKCS#12 file with the signing key, or pkcs11:token=…;object=… for one in a "
                                     "token ('build' without one: a demonstration key, not for issue)")
                         ->check(empty_value);
  CLI::Option* descriptor = command.add_option("--password-fd", options.password.file_descriptor,
                                               "File descriptor to read the key's password, or the token's PIN, from");
  CLI::Option* variable = command.add_option("--password-env", options.password.environment_variable,
                                             "Environment variable that holds the key's password or the token's PIN");
  command.add_option("--token-module", options.token_module, "PKCS#11 library of the token's maker")->needs(key);
  descriptor->needs(key)->excludes(variable);
  variable->needs(key);
  command
      .add_option("--time-stamp-server", options.time_stamp_server,
                  "Server (RFC 3161) whose time stamp proves when the dossier was signed, for example "
                  "http://stamps.example/tsa")
      ->check(empty_value);
  return key;
}

std::unique_ptr<Signer> make_signer(const SigningOptions& options, const std::string& time_utc) {
  TimeStamping stamps;
  if (!options.time_stamp_server.empty()) stamps = time_stamp_server(options.time_stamp_server);
  if (options.key.empty()) return make_demonstration_signer(std::move(stamps));
  if (!options.uses_token()) require_own(options.key);
  std::unique_ptr<Signer> signer =
      options.uses_token() ? load_token_signer(options.key.string(), options.token_module,
                                               read_password(options.password), time_utc, std::move(stamps))
                           : load_signer(options.key, read_password(options.password), time_utc, std::move(stamps));
  const std::string fault = signer->validity_fault_at(time_now_utc());
  if (!fault.empty()) {
    throw std::runtime_error("key '" + options.key.string() + "': the certificate of '" + signer->subject() + "' is " +
                             fault + " by the clock; a build time does not make it valid again");
  }
  return signer;
}

std::unique_ptr<Signer> demonstration_if_incomplete(BuildSummary& build, const Signer& chosen) {
  if (!build.incomplete || !chosen.for_issue()) return nullptr;
  build.signed_for_issue = false;
  build.warnings.emplace_back("not signed for issue, with a demonstration key: the build is incomplete");
  return make_demonstration_signer();
}

std::string key_warning(const SigningOptions& options) {
  const auto mode = mode_of(options.key);
  if (!mode || (*mode & (S_IRGRP | S_IROTH)) == 0) return {};
  return "the key file '" + options.key.string() +
         "' can be read by others than its owner; run 'chmod 600' on it, for its password alone guards it now";
}

}  // namespace panel_dossier
