#include "sample_project/generator/global_id.h"

#include <array>
#include <cstdint>

namespace sample_export {

namespace {

constexpr std::string_view kAlphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_$";

std::uint64_t fnv1a(std::string_view text, std::uint64_t hash) {
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
  // FNV leaves the high bits of short texts poorly mixed; this is the usual 64-bit finaliser.
  hash = (hash ^ (hash >> 30U)) * 0xbf58476d1ce4e5b9ULL;
  hash = (hash ^ (hash >> 27U)) * 0x94d049bb133111ebULL;
  return hash ^ (hash >> 31U);
}

std::array<unsigned char, 16> uuid_bytes(std::string_view path) {
  const std::uint64_t high = fnv1a(path, 0xcbf29ce484222325ULL);
  const std::uint64_t low = fnv1a(path, high ^ 0x9e3779b97f4a7c15ULL);
  std::array<unsigned char, 16> bytes{};
  for (unsigned i = 0; i < 8; ++i) {
    bytes[i] = static_cast<unsigned char>(high >> (56U - 8U * i));
    bytes[8 + i] = static_cast<unsigned char>(low >> (56U - 8U * i));
  }
  bytes[6] = static_cast<unsigned char>((bytes[6] & 0x0fU) | 0x80U);
  bytes[8] = static_cast<unsigned char>((bytes[8] & 0x3fU) | 0x80U);
  return bytes;
}

void append_base64(std::string& text, unsigned value, unsigned characters) {
  for (unsigned i = characters; i-- > 0;) text += kAlphabet[(value >> (6U * i)) & 0x3fU];
}

}  // namespace

std::string global_id(std::string_view path) {
  const auto bytes = uuid_bytes(path);
  std::string text;
  append_base64(text, bytes[0], 2);
  for (std::size_t i = 1; i < bytes.size(); i += 3) {
    append_base64(text, (unsigned{bytes[i]} << 16U) | (unsigned{bytes[i + 1]} << 8U) | bytes[i + 2], 4);
  }
  return text;
}

}  // namespace sample_export
