// SHA-256 (FIPS 180-4) of bytes and of files.
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

namespace panel_dossier {

using Digest = std::array<std::uint8_t, 32>;

Digest sha256(std::string_view bytes);

/// Reads the file in blocks, so its size does not matter. Throws std::runtime_error naming the file and the reason.
Digest sha256_file(const std::filesystem::path& file);

/// 64 lower-case hexadecimal digits.
std::string to_hex(const Digest& digest);

/// Throws std::runtime_error when the text is not 64 lower-case hexadecimal digits.
Digest digest_from_hex(std::string_view hex);

}  // namespace panel_dossier
