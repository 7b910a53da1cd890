#include "core/intake/document/text_conversion.h"

#include <iconv.h>

#include <array>
#include <cerrno>
#include <cstddef>
#include <cstdint>

namespace panel_dossier {

namespace {

constexpr std::size_t kConvertedBlock = 1U << 16U;

}  // namespace

ConvertedText converted_to_utf8(std::string_view bytes, const std::string& encoding) {
  ConvertedText converted;
  const iconv_t converter = iconv_open("UTF-8", encoding.c_str());
  if (reinterpret_cast<std::intptr_t>(converter) == -1) return converted;
  std::array<char, kConvertedBlock> block{};
  char* in = const_cast<char*>(bytes.data());  // iconv's signature; it does not write there
  std::size_t in_left = bytes.size();
  converted.is_whole = true;
  while (in_left > 0 && converted.is_whole) {
    char* out = block.data();
    std::size_t out_left = block.size();
    const std::size_t done = iconv(converter, &in, &in_left, &out, &out_left);
    converted.is_whole = done != static_cast<std::size_t>(-1) || errno == E2BIG;
    converted.text.append(block.data(), block.size() - out_left);
  }
  iconv_close(converter);
  return converted;
}

}  // namespace panel_dossier
