#include "core/cli/build/signing_key.h"

#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstddef>
#include <cstdlib>
#include <cstring>
#include <stdexcept>

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

}  // namespace

std::unique_ptr<Signer> make_signer(const SigningOptions& options, const std::string& time_utc) {
  if (options.key.empty()) return make_demonstration_signer();
  return load_signer(options.key, read_password(options.password), time_utc);
}

}  // namespace panel_dossier
