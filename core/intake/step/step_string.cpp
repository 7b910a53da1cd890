#include "core/intake/step/step_string.h"

#include <charconv>
#include <cstddef>
#include <optional>
#include <utility>

#include "core/api/support/text_encoding.h"
#include "core/intake/document/text_conversion.h"

namespace panel_dossier {

namespace {

constexpr char32_t kReplacement = 0xFFFD;
constexpr char32_t kLastCharacter = 0x10FFFF;

/// Characters that a text may have; line breaks and tabs of a description among them.
bool is_text_character(char32_t c) {
  if (c < 0x20) return c == '\n' || c == '\r' || c == '\t';
  const bool is_surrogate = c >= 0xD800 && c <= 0xDFFF;
  return c != 0x7F && !is_surrogate && (c & 0xFFFEU) != 0xFFFEU && c <= kLastCharacter;
}

void append_utf8(std::string& text, char32_t c) {
  const auto byte = [&](char32_t value) { text += static_cast<char>(static_cast<unsigned char>(value)); };
  if (c < 0x80) {
    byte(c);
  } else if (c < 0x800) {
    byte(0xC0U | (c >> 6U));
    byte(0x80U | (c & 0x3FU));
  } else if (c < 0x10000) {
    byte(0xE0U | (c >> 12U));
    byte(0x80U | ((c >> 6U) & 0x3FU));
    byte(0x80U | (c & 0x3FU));
  } else {
    byte(0xF0U | (c >> 18U));
    byte(0x80U | ((c >> 12U) & 0x3FU));
    byte(0x80U | ((c >> 6U) & 0x3FU));
    byte(0x80U | (c & 0x3FU));
  }
}

class StepStringDecoder {
 public:
  StepStringDecoder(std::string_view inside, StepBytes bytes, StepStringFaults& faults)
      : rest_(inside), bytes_(bytes), faults_(faults) {
    text_.reserve(inside.size());
  }

  std::string decode() {
    while (!rest_.empty()) {
      const char c = rest_.front();
      if (c == '\\') {
        directive();
      } else if (c == '\'') {
        text_ += c;
        rest_.remove_prefix(rest_.size() > 1 && rest_[1] == '\'' ? 2 : 1);
      } else if (c == '\n' || c == '\r') {
        ++faults_.line_breaks;
        rest_.remove_prefix(1);
      } else {
        plain(c);
      }
    }
    return std::move(text_);
  }

 private:
  std::string_view rest_;
  StepBytes bytes_;
  StepStringFaults& faults_;
  std::string text_;
  int page_ = 1;

  void plain(char c) {
    const auto code = static_cast<unsigned char>(c);
    if (code >= 0x80 && bytes_ == StepBytes::utf8) {
      text_ += c;
    } else {
      append(code);
    }
    rest_.remove_prefix(1);
  }

  void append(char32_t c) {
    if (!is_text_character(c)) ++faults_.characters;
    append_utf8(text_, is_text_character(c) ? c : kReplacement);
  }

  /// The number of `digits` hexadecimal digits at `at`; none when they are not there.
  std::optional<char32_t> hexadecimal(std::size_t at, std::size_t digits) const {
    if (rest_.size() < at + digits) return std::nullopt;
    std::uint32_t value = 0;
    const char* begin = rest_.data() + at;
    const auto [end, status] = std::from_chars(begin, begin + digits, value, 16);
    if (status != std::errc() || end != begin + digits) return std::nullopt;
    return value;
  }

  void directive() {
    const bool is_known = doubled_backslash() || one_byte() || units("\\X2\\", 4) || units("\\X4\\", 8) || of_page() ||
                          choice_of_page() || print_directive();
    if (is_known) return;
    ++faults_.directives;
    text_ += '\\';
    rest_.remove_prefix(1);
  }

  bool doubled_backslash() {
    if (!rest_.starts_with("\\\\")) return false;
    text_ += '\\';
    rest_.remove_prefix(2);
    return true;
  }

  bool one_byte() {
    const auto code = rest_.starts_with("\\X\\") ? hexadecimal(3, 2) : std::nullopt;
    if (!code) return false;
    append(*code);
    rest_.remove_prefix(5);
    return true;
  }

  /// `\X2\hhhh…\X0\` and `\X4\hhhhhhhh…\X0\`.
  bool units(std::string_view opening, std::size_t digits) {
    constexpr std::string_view kClosing = "\\X0\\";
    if (!rest_.starts_with(opening)) return false;
    std::size_t at = opening.size();
    std::u32string found;
    while (const auto unit = hexadecimal(at, digits)) {
      found += *unit;
      at += digits;
    }
    if (found.empty() || rest_.substr(at, kClosing.size()) != kClosing) return false;
    append_joined(found);
    rest_.remove_prefix(at + kClosing.size());
    return true;
  }

  /// Some writers put characters beyond the basic plane as a pair of surrogates.
  void append_joined(const std::u32string& found) {
    for (std::size_t i = 0; i < found.size(); ++i) {
      const bool is_pair = found[i] >= 0xD800 && found[i] <= 0xDBFF && i + 1 < found.size() && found[i + 1] >= 0xDC00 &&
                           found[i + 1] <= 0xDFFF;
      if (is_pair) {
        append(0x10000U + ((found[i] - 0xD800U) << 10U) + (found[i + 1] - 0xDC00U));
        ++i;
      } else {
        append(found[i]);
      }
    }
  }

  bool of_page() {
    if (!rest_.starts_with("\\S\\") || rest_.size() < 4) return false;
    const auto low = static_cast<unsigned char>(rest_[3]);
    if (low < 0x20 || low > 0x7E) return false;
    const auto code = static_cast<unsigned char>(low + 0x80U);
    if (page_ == 1) {
      append(code);
    } else {
      append_of_page(static_cast<char>(code));
    }
    rest_.remove_prefix(4);
    return true;
  }

  void append_of_page(char code) {
    const ConvertedText character = converted_to_utf8({&code, 1}, "ISO-8859-" + std::to_string(page_));
    if (character.is_whole) {
      text_ += character.text;
    } else {
      append(0xFFFF);  // no character: a code that the page does not have
    }
  }

  bool choice_of_page() {
    const bool is_choice =
        rest_.size() > 3 && rest_[1] == 'P' && rest_[2] >= 'A' && rest_[2] <= 'I' && rest_[3] == '\\';
    if (!is_choice) return false;
    page_ = rest_[2] - 'A' + 1;
    rest_.remove_prefix(4);
    return true;
  }

  bool print_directive() {
    if (!rest_.starts_with("\\N\\") && !rest_.starts_with("\\F\\")) return false;
    rest_.remove_prefix(3);
    return true;
  }
};

}  // namespace

StepBytes step_bytes_of(std::string_view text) {
  bool is_ascii = true;
  for (const char c : text) is_ascii &= static_cast<unsigned char>(c) < 0x80;
  if (is_ascii) return StepBytes::ascii;
  const auto fault = encoding_fault(text);
  return fault ? StepBytes::latin1 : StepBytes::utf8;
}

bool is_plain_step_string(std::string_view quoted) {
  if (quoted.size() < 2) return false;
  for (const char c : quoted.substr(1, quoted.size() - 2)) {
    const auto code = static_cast<unsigned char>(c);
    if (code < 0x20 || code > 0x7E || c == '\\' || c == '\'') return false;
  }
  return true;
}

std::string decode_step_string(std::string_view quoted, StepBytes bytes, StepStringFaults& faults) {
  if (quoted.size() < 2) return {};
  const std::string_view inside = quoted.substr(1, quoted.size() - 2);
  if (is_plain_step_string(quoted)) return std::string(inside);
  return StepStringDecoder(inside, bytes, faults).decode();
}

}  // namespace panel_dossier
