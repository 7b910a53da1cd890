#include "core/api/support/text_encoding.h"

#include <array>
#include <cctype>
#include <cstdint>
#include <cstdio>
#include <cstring>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

/// Characters of ASCII at the front, in whole words of the machine: most of any export.
std::size_t ascii_length(std::string_view text) {
  constexpr std::uint64_t kHighBits = 0x8080808080808080U;
  std::size_t at = 0;
  for (std::uint64_t word = 0; at + sizeof(word) <= text.size(); at += sizeof(word)) {
    std::memcpy(&word, text.data() + at, sizeof(word));
    if ((word & kHighBits) != 0) break;
  }
  return at;
}

/// Length of the UTF-8 sequence at the front, or 0 when it is none (RFC 3629 section 4).
std::size_t utf8_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const auto is_tail = [&](std::size_t i, unsigned low = 0x80, unsigned high = 0xBF) {
    return i < text.size() && byte(i) >= low && byte(i) <= high;
  };
  const unsigned lead = byte(0);
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead <= 0xDF) return is_tail(1) ? 2 : 0;
  if (lead >= 0xE0 && lead <= 0xEF) {
    const unsigned low = lead == 0xE0 ? 0xA0 : 0x80;
    const unsigned high = lead == 0xED ? 0x9F : 0xBF;
    return is_tail(1, low, high) && is_tail(2) ? 3 : 0;
  }
  if (lead >= 0xF0 && lead <= 0xF4) {
    const unsigned low = lead == 0xF0 ? 0x90 : 0x80;
    const unsigned high = lead == 0xF4 ? 0x8F : 0xBF;
    return is_tail(1, low, high) && is_tail(2) && is_tail(3) ? 4 : 0;
  }
  return 0;
}

/// The encoding that the XML declaration names; empty when there is none.
std::string declared_encoding(std::string_view text) {
  if (text.substr(0, 5) != "<?xml") return {};
  const std::string_view declaration = text.substr(0, text.find("?>"));
  const std::size_t at = declaration.find("encoding");
  if (at == std::string_view::npos) return {};
  const std::size_t open = declaration.find_first_of("'\"", at);
  if (open == std::string_view::npos) return {};
  const std::size_t close = declaration.find(declaration[open], open + 1);
  return std::string(declaration.substr(open + 1, close == std::string_view::npos ? close : close - open - 1));
}

/// `utf-8`, or ASCII, which is part of it; some tools write `UTF_8`.
bool names_utf8(std::string name) {
  for (char& c : name) c = c == '_' ? '-' : static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return name == "UTF-8" || name == "US-ASCII";
}

bool is_utf16(std::string_view text) {
  return text.substr(0, 2) == "\xFF\xFE" || text.substr(0, 2) == "\xFE\xFF" ||
         (text.size() > 1 && (text[0] == '\0' || text[1] == '\0'));
}

/// Of the UTF-8 sequence, which is sound.
std::uint32_t code_point_of(std::string_view sequence) {
  const auto lead = static_cast<unsigned char>(sequence.front());
  constexpr std::array<unsigned, 5> kLeadMasks{0, 0x7F, 0x1F, 0x0F, 0x07};
  std::uint32_t code = lead & kLeadMasks.at(sequence.size());
  for (const char tail : sequence.substr(1)) code = (code << 6U) | (static_cast<unsigned char>(tail) & 0x3FU);
  return code;
}

/// Controls (C0, DEL, C1), separators of lines, marks and overrides of the bidirectional algorithm (Unicode Standard
/// Annex 9, 2.1 to 2.6), and what is no character.
bool is_hidden(std::uint32_t code) {
  const auto is_in = [code](std::uint32_t first, std::uint32_t last) { return code >= first && code <= last; };
  return is_in(0x00, 0x1F) || is_in(0x7F, 0x9F) || code == 0x061C || is_in(0x200E, 0x200F) || is_in(0x2028, 0x202E) ||
         is_in(0x2066, 0x2069) || code == 0xFEFF || is_in(0xFDD0, 0xFDEF) || (code & 0xFFFEU) == 0xFFFEU;
}

std::string shown_as(const char* form, std::uint32_t code) {
  std::array<char, 16> text{};
  std::snprintf(text.data(), text.size(), form, static_cast<unsigned>(code));
  return text.data();
}

std::string visible(std::string_view text, std::string_view kept) {
  std::string shown;
  shown.reserve(text.size());
  while (!text.empty()) {
    const std::size_t length = utf8_length(text);
    const std::string_view sequence = text.substr(0, length == 0 ? 1 : length);
    if (length == 0) {
      shown += shown_as("<0x%02X>", static_cast<unsigned char>(text.front()));
    } else if (kept.find(text.front()) == std::string_view::npos && is_hidden(code_point_of(sequence))) {
      shown += shown_as("<U+%04X>", code_point_of(sequence));
    } else {
      shown += sequence;
    }
    text.remove_prefix(sequence.size());
  }
  return shown;
}

}  // namespace

std::string visible_text(std::string_view text) {
  return visible(text, "\t");
}

std::string visible_lines(std::string_view text) {
  return visible(text, "\t\n");
}

std::optional<EncodingFault> encoding_fault(std::string_view bytes) {
  constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
  if (trimmed(bytes).empty()) return EncodingFault{"the file is empty", std::nullopt};
  if (is_utf16(bytes)) return EncodingFault{"the file is not in UTF-8 (it looks like UTF-16)", 0};
  std::string_view text = bytes;
  if (text.substr(0, kByteOrderMark.size()) == kByteOrderMark) text.remove_prefix(kByteOrderMark.size());
  const std::string encoding = declared_encoding(text);
  if (!encoding.empty() && !names_utf8(encoding)) {
    return EncodingFault{"the file declares the encoding '" + encoding.substr(0, 40) + "'", 0};
  }
  while (true) {
    text.remove_prefix(ascii_length(text));
    if (text.empty()) break;
    const std::size_t length = utf8_length(text);
    if (length == 0) {
      return EncodingFault{"the file is not valid UTF-8 from this byte on", bytes.size() - text.size()};
    }
    text.remove_prefix(length);
  }
  return std::nullopt;
}

}  // namespace panel_dossier
