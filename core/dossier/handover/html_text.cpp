#include "core/dossier/handover/html_text.h"

#include <cstdint>

#include "core/api/support/text_encoding.h"

namespace panel_dossier {

std::string html_escaped(std::string_view text) {
  std::string html;
  for (const char character : visible_text(text)) {
    switch (character) {
      case '&': html += "&amp;"; break;
      case '<': html += "&lt;"; break;
      case '>': html += "&gt;"; break;
      case '"': html += "&quot;"; break;
      case '\'': html += "&#39;"; break;
      default: html += character;
    }
  }
  return html;
}

std::string json_in_html(std::string_view json) {
  std::string safe;
  safe.reserve(json.size());
  for (const char character : json) {
    switch (character) {
      case '<': safe += "\\u003c"; break;
      case '>': safe += "\\u003e"; break;
      case '&': safe += "\\u0026"; break;
      default: safe += character;
    }
  }
  return safe;
}

std::string base64(std::string_view bytes) {
  constexpr std::string_view kDigits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    std::uint32_t group = 0;
    for (std::size_t k = 0; k < 3; ++k) {
      group = (group << 8U) | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0U);
    }
    for (std::size_t k = 0; k < 4; ++k) {
      text += i + k <= bytes.size() ? kDigits[(group >> (18U - 6U * k)) & 0x3FU] : '=';
    }
  }
  return text;
}

}  // namespace panel_dossier
