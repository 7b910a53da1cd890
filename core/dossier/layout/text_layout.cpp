#include "core/dossier/layout/text_layout.h"

#include <algorithm>

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

namespace {

bool breaks_behind(char character) {
  return std::string_view("/-_.,:;").find(character) != std::string_view::npos;
}

std::vector<std::string_view> pieces_of(std::string_view text, char separator) {
  std::vector<std::string_view> pieces;
  std::size_t start = 0;
  for (std::size_t at = text.find(separator); at != std::string_view::npos; at = text.find(separator, start)) {
    pieces.push_back(text.substr(start, at - start));
    start = at + 1;
  }
  pieces.push_back(text.substr(start));
  return pieces;
}

bool is_digit(char character) {
  return character >= '0' && character <= '9';
}

// Behind punctuation, but not within a number.
bool break_allowed(std::string_view word, std::size_t at) {
  const bool decimal = at > 0 && is_digit(word[at - 1]) && is_digit(word[at + 1]);
  return breaks_behind(word[at]) && !breaks_behind(word[at + 1]) && !decimal;
}

// Pieces that together are the word; a break is allowed between any two.
std::vector<std::string_view> soft_pieces(std::string_view word) {
  std::vector<std::string_view> pieces;
  std::size_t start = 0;
  for (std::size_t i = 0; i + 1 < word.size(); ++i) {
    if (!break_allowed(word, i)) continue;
    pieces.push_back(word.substr(start, i + 1 - start));
    start = i + 1;
  }
  pieces.push_back(word.substr(start));
  return pieces;
}

// Bytes of the longest prefix that fits, at least one character.
std::size_t fitting_prefix(std::string_view text, double width, const Measure& measure) {
  std::size_t end = 0;
  next_code_point(text, end);
  double used = measure(text.substr(0, end));
  while (end < text.size()) {
    std::size_t next = end;
    next_code_point(text, next);
    used += measure(text.substr(end, next - end));
    if (used > width) break;
    end = next;
  }
  return end;
}

class LineBreaker {
 public:
  LineBreaker(double width, const Measure& measure) : width_(width), measure_(measure), space_(measure(" ")) {}

  void paragraph(std::string_view text) {
    for (const std::string_view word : pieces_of(text, ' ')) {
      if (!word.empty()) place_word(word);
    }
    finish_line();
  }

  std::vector<std::string> take() { return std::move(lines_); }

 private:
  double width_;
  const Measure& measure_;
  double space_;
  std::vector<std::string> lines_;
  std::string line_;
  double used_ = 0.0;

  void finish_line() {
    lines_.push_back(std::move(line_));
    line_.clear();
    used_ = 0.0;
  }

  void append(std::string_view piece, double piece_width) {
    line_ += piece;
    used_ += piece_width;
  }

  void place_word(std::string_view word) {
    const double word_width = measure_(word);
    if (!line_.empty() && used_ + space_ + word_width <= width_) {
      append(" ", space_);
      append(word, word_width);
      return;
    }
    if (!line_.empty()) finish_line();
    if (word_width <= width_) {
      append(word, word_width);
      return;
    }
    for (const std::string_view piece : soft_pieces(word)) place_piece(piece);
  }

  void place_piece(std::string_view piece) {
    const double piece_width = measure_(piece);
    if (!line_.empty() && used_ + piece_width > width_) finish_line();
    if (piece_width <= width_) {
      append(piece, piece_width);
      return;
    }
    while (!piece.empty()) {
      const std::size_t bytes = fitting_prefix(piece, width_, measure_);
      append(piece.substr(0, bytes), measure_(piece.substr(0, bytes)));
      piece.remove_prefix(bytes);
      if (!piece.empty()) finish_line();
    }
  }
};

}  // namespace

std::vector<std::string> wrap(std::string_view text, double width, const Measure& measure) {
  LineBreaker breaker(width, measure);
  for (const std::string_view paragraph : pieces_of(text, '\n')) breaker.paragraph(paragraph);
  return breaker.take();
}

std::string shorten(std::string_view text, double width, const Measure& measure) {
  if (measure(text) <= width) return std::string(text);
  const double room = width - measure("…");
  if (text.empty() || room <= 0.0) return "…";
  return std::string(text.substr(0, fitting_prefix(text, room, measure))) + "…";
}

double widest_word(std::string_view text, const Measure& measure) {
  double widest = 0.0;
  for (const std::string_view paragraph : pieces_of(text, '\n')) {
    for (const std::string_view word : pieces_of(paragraph, ' ')) {
      for (const std::string_view piece : soft_pieces(word)) widest = std::max(widest, measure(piece));
    }
  }
  return widest;
}

}  // namespace panel_dossier
