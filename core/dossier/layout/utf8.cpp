#include "core/dossier/layout/utf8.h"

namespace panel_dossier {

namespace {

struct Lead {
  std::size_t length;
  char32_t bits;
  char32_t smallest;  // below it the sequence is overlong
};

Lead lead_of(unsigned char byte) {
  if (byte < 0x80) return {1, byte, 0};
  if ((byte & 0xE0U) == 0xC0U) return {2, byte & 0x1FU, 0x80};
  if ((byte & 0xF0U) == 0xE0U) return {3, byte & 0x0FU, 0x800};
  if ((byte & 0xF8U) == 0xF0U) return {4, byte & 0x07U, 0x10000};
  return {0, 0, 0};
}

}  // namespace

char32_t next_code_point(std::string_view text, std::size_t& at) {
  const Lead lead = lead_of(static_cast<unsigned char>(text[at]));
  if (lead.length == 0 || at + lead.length > text.size()) {
    ++at;
    return kReplacementCharacter;
  }
  char32_t code = lead.bits;
  for (std::size_t i = 1; i < lead.length; ++i) {
    const auto byte = static_cast<unsigned char>(text[at + i]);
    if ((byte & 0xC0U) != 0x80U) {
      ++at;
      return kReplacementCharacter;
    }
    code = (code << 6U) | (byte & 0x3FU);
  }
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  if (code < lead.smallest || code > 0x10FFFF || surrogate) {
    ++at;
    return kReplacementCharacter;
  }
  at += lead.length;
  return code;
}

void append_utf8(std::string& text, char32_t code_point) {
  const auto put = [&text](char32_t byte) { text += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (code_point < 0x80) {
    put(code_point);
  } else if (code_point < 0x800) {
    put(0xC0U | (code_point >> 6U));
    put(0x80U | (code_point & 0x3FU));
  } else if (code_point < 0x10000) {
    put(0xE0U | (code_point >> 12U));
    put(0x80U | ((code_point >> 6U) & 0x3FU));
    put(0x80U | (code_point & 0x3FU));
  } else {
    put(0xF0U | (code_point >> 18U));
    put(0x80U | ((code_point >> 12U) & 0x3FU));
    put(0x80U | ((code_point >> 6U) & 0x3FU));
    put(0x80U | (code_point & 0x3FU));
  }
}

}  // namespace panel_dossier
