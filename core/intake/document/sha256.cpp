#include "core/intake/document/sha256.h"

#include <openssl/evp.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <memory>
#include <stdexcept>
#include <vector>

namespace panel_dossier {

namespace {

/// Fetched once: each implicit fetch takes a lock, and leaves a state with every thread that hashes.
const EVP_MD* fetched_sha256() {
  static const std::unique_ptr<EVP_MD, decltype(&EVP_MD_free)> kMethod(EVP_MD_fetch(nullptr, "SHA2-256", nullptr),
                                                                       EVP_MD_free);
  return kMethod.get();
}

void require_done(bool ok) {
  if (!ok) throw std::runtime_error("the cryptographic library cannot compute SHA-256");
}

[[noreturn]] void refuse_file(const std::filesystem::path& file) {
  throw std::runtime_error("cannot read '" + file.string() + "': " + std::strerror(errno));
}

std::uint8_t nibble(char digit) {
  if (digit >= '0' && digit <= '9') return static_cast<std::uint8_t>(digit - '0');
  if (digit >= 'a' && digit <= 'f') return static_cast<std::uint8_t>(digit - 'a' + 10);
  throw std::runtime_error("a SHA-256 digest holds '" + std::string(1, digit) + "', which is no lower-case hex digit");
}

}  // namespace

Sha256::Sha256() : context_(EVP_MD_CTX_new(), EVP_MD_CTX_free) {
  require_done(context_ && fetched_sha256() != nullptr &&
               EVP_DigestInit_ex2(context_.get(), fetched_sha256(), nullptr) == 1);
}

void Sha256::add(std::string_view bytes) {
  require_done(EVP_DigestUpdate(context_.get(), bytes.data(), bytes.size()) == 1);
}

Digest Sha256::finish() {
  Digest digest{};
  require_done(EVP_DigestFinal_ex(context_.get(), digest.data(), nullptr) == 1);
  return digest;
}

Digest sha256(std::string_view bytes) {
  Sha256 hasher;
  hasher.add(bytes);
  return hasher.finish();
}

Digest sha256_file(const std::filesystem::path& file) {
  constexpr std::size_t kBlockBytes = 1U << 16U;
  errno = 0;
  std::ifstream stream(file, std::ios::binary);
  if (!stream) refuse_file(file);
  Sha256 hasher;
  std::vector<char> block(kBlockBytes);
  while (stream.read(block.data(), static_cast<std::streamsize>(block.size())), stream.gcount() > 0) {
    hasher.add({block.data(), static_cast<std::size_t>(stream.gcount())});
  }
  if (!stream.eof()) refuse_file(file);
  return hasher.finish();
}

std::string to_hex(const Digest& digest) {
  constexpr char kDigits[] = "0123456789abcdef";
  std::string text;
  text.reserve(2 * digest.size());
  for (const std::uint8_t byte : digest) {
    text += kDigits[byte >> 4U];
    text += kDigits[byte & 0x0fU];
  }
  return text;
}

Digest digest_from_hex(std::string_view hex) {
  Digest digest{};
  if (hex.size() != 2 * digest.size()) {
    throw std::runtime_error("a SHA-256 digest has " + std::to_string(hex.size()) + " digits instead of 64");
  }
  for (std::size_t i = 0; i < digest.size(); ++i) {
    digest[i] = static_cast<std::uint8_t>(nibble(hex[2 * i]) << 4U | nibble(hex[2 * i + 1]));
  }
  return digest;
}

}  // namespace panel_dossier
