// SHA-256 (FIPS 180-4) of bytes and of files.
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

struct evp_md_ctx_st;

namespace panel_dossier {

using Digest = std::array<std::uint8_t, 32>;

Digest sha256(std::string_view bytes);

/// Of bytes that come piece by piece.
class Sha256 {
 public:
  Sha256();
  void add(std::string_view bytes);
  /// Of all that was added; the object is spent.
  Digest finish();

 private:
  std::unique_ptr<evp_md_ctx_st, void (*)(evp_md_ctx_st*)> context_;
};

/// Reads the file in blocks, so its size does not matter. Throws std::runtime_error naming the file and the reason.
Digest sha256_file(const std::filesystem::path& file);

/// 64 lower-case hexadecimal digits.
std::string to_hex(const Digest& digest);

/// Throws std::runtime_error when the text is not 64 lower-case hexadecimal digits.
Digest digest_from_hex(std::string_view hex);

}  // namespace panel_dossier
