#include "core/intake/document/text_limit.h"

namespace panel_dossier {

std::string shortened_text(const std::string& text) {
  constexpr std::size_t kShownBytes = 60;
  if (text.size() <= kShownBytes) return text;
  const auto starts_character = [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; };
  std::size_t end = kShownBytes;
  while (end > 0 && !starts_character(text[end])) --end;
  return text.substr(0, end) + "…";
}

}  // namespace panel_dossier
