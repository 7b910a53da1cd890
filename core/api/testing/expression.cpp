#include "core/api/testing/expression.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <numbers>
#include <optional>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier::testing {

namespace {

constexpr std::array<std::string_view, 8> kFunctions{"min", "max", "sum", "exp", "ln", "sin", "cos", "tan"};

/// The code point at the head of a UTF-8 text and its length in bytes; an unpaired byte stands for itself.
std::pair<char32_t, std::size_t> first_letter(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<std::uint8_t>(text[i]); };
  const std::size_t length = byte(0) < 0xC0 ? 1 : byte(0) < 0xE0 ? 2 : byte(0) < 0xF0 ? 3 : 4;
  if (length == 1 || text.size() < length) return {byte(0), 1};
  char32_t point = byte(0) & (0x7FU >> length);
  for (std::size_t i = 1; i < length; ++i) point = (point << 6U) | (byte(i) & 0x3FU);
  return {point, length};
}

struct Range {
  char32_t from;
  char32_t to;
};

/// Signs above ASCII that are no letters: Latin punctuation with ² ³ · °, × and ÷, general punctuation, superscripts
/// and subscripts, currencies, arrows, mathematical and technical signs.
constexpr std::array<Range, 9> kSigns{{{0x80, 0xA9},
                                       {0xAB, 0xB4},
                                       {0xB6, 0xB9},
                                       {0xBB, 0xBF},
                                       {0xD7, 0xD7},
                                       {0xF7, 0xF7},
                                       {0x2000, 0x20CF},
                                       {0x2190, 0x2BFF},
                                       {0x3000, 0x303F}}};

bool is_part_of_symbol(char32_t point) {
  constexpr char32_t kEnDash = 0x2013;
  constexpr char32_t kPrime = 0x2032;
  constexpr char32_t kDoublePrime = 0x2033;
  if (point == kEnDash || point == kPrime || point == kDoublePrime) return true;
  if (point < 0x80) {
    const char c = static_cast<char>(point);
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == ',' ||
           c == '\'';
  }
  return std::none_of(kSigns.begin(), kSigns.end(),
                      [point](const Range& signs) { return point >= signs.from && point <= signs.to; });
}

/// Bytes at the head of the text that may belong to one symbol.
std::size_t symbol_length(std::string_view text) {
  std::size_t length = 0;
  while (length < text.size()) {
    const auto [point, bytes] = first_letter(text.substr(length));
    if (!is_part_of_symbol(point)) break;
    length += bytes;
  }
  return length;
}

bool is_digit(std::string_view text) {
  return !text.empty() && text.front() >= '0' && text.front() <= '9';
}

Expression number_of(double number) {
  return {Expression::Kind::number, number};
}

Expression operation(Expression::Kind kind, std::vector<Expression> operands) {
  return {kind, 0.0, {}, std::move(operands)};
}

/// Recursive descent; each function reads what binds tighter than the one that calls it.
class ExpressionReader {
 public:
  ExpressionReader(std::string_view text, std::vector<std::string_view> names) : text_(text), names_(std::move(names)) {
    std::sort(names_.begin(), names_.end(),
              [](std::string_view one, std::string_view other) { return one.size() > other.size(); });
  }

  Expression whole() {
    Expression result = sum();
    if (!rest().empty()) throw ExpressionError("'" + std::string(rest()) + "' is no part of an expression");
    return result;
  }

 private:
  std::string_view text_;
  std::vector<std::string_view> names_;

  std::string_view rest() {
    while (text_.starts_with(' ')) text_.remove_prefix(1);
    return text_;
  }

  bool take(std::string_view sign) {
    if (!rest().starts_with(sign)) return false;
    text_.remove_prefix(sign.size());
    return true;
  }

  void need(std::string_view sign) {
    if (take(sign)) return;
    throw ExpressionError("'" + std::string(sign) + "' is missing before '" + std::string(rest()) + "'");
  }

  Expression sum() {
    Expression result = product();
    while (true) {
      if (take("+")) {
        result = operation(Expression::Kind::sum, {std::move(result), product()});
      } else if (take_minus()) {
        result = operation(Expression::Kind::difference, {std::move(result), product()});
      } else {
        return result;
      }
    }
  }

  bool take_minus() { return take("−") || take("-"); }

  Expression product() {
    Expression result = negative();
    while (true) {
      if (take("·") || take("×")) {
        result = operation(Expression::Kind::product, {std::move(result), negative()});
      } else if (take("/")) {
        result = operation(Expression::Kind::quotient, {std::move(result), negative()});
      } else {
        return result;
      }
    }
  }

  Expression negative() {
    if (take_minus()) return operation(Expression::Kind::negative, {negative()});
    return power();
  }

  Expression power() {
    Expression result = operand();
    while (true) {
      double exponent = 0.0;
      if (take("²")) exponent = 2.0;
      if (take("³")) exponent = 3.0;
      if (take("⁴")) exponent = 4.0;
      if (exponent == 0.0) break;
      result = operation(Expression::Kind::power, {std::move(result), number_of(exponent)});
    }
    if (take("^")) return operation(Expression::Kind::power, {std::move(result), negative()});
    return result;
  }

  Expression operand() {
    if (rest().empty()) throw ExpressionError("the expression ends too early");
    if (take("(")) return inside(")");
    if (take("|")) return operation(Expression::Kind::magnitude, {inside("|")});
    if (take("√")) {
      need("(");
      return operation(Expression::Kind::root, {inside(")")});
    }
    if (is_digit(text_)) return number();
    return name();
  }

  Expression inside(std::string_view close) {
    Expression result = sum();
    need(close);
    return result;
  }

  Expression number() {
    const std::size_t length = std::min(text_.find_first_not_of("0123456789."), text_.size());
    const std::string_view digits = text_.substr(0, length);
    const std::optional<double> value = parse_decimal(digits);
    if (!value) throw ExpressionError("'" + std::string(digits) + "' is no number");
    text_.remove_prefix(length);
    return number_of(*value);
  }

  Expression name() {
    for (const std::string_view known : names_) {
      // `A1–A3` must not be found in `A1–A3,bio`.
      if (known.empty() || !text_.starts_with(known) || symbol_length(text_.substr(known.size())) > 0) continue;
      text_.remove_prefix(known.size());
      return {Expression::Kind::name, 0.0, std::string(known)};
    }
    const std::string_view word = text_.substr(0, symbol_length(text_));
    if (word.empty()) throw ExpressionError("'" + std::string(text_) + "' is no part of an expression");
    text_.remove_prefix(word.size());
    if (word == "π") return number_of(std::numbers::pi);
    const bool is_function = std::find(kFunctions.begin(), kFunctions.end(), word) != kFunctions.end();
    if (!is_function || !take("(")) throw ExpressionError("'" + std::string(word) + "' is no symbol of the finding");
    std::vector<Expression> operands{sum()};
    while ((word == "min" || word == "max") && take(";")) operands.push_back(sum());
    need(")");
    return {Expression::Kind::function, 0.0, std::string(word), std::move(operands)};
  }
};

}  // namespace

bool is_symbol(std::string_view text) {
  return !text.empty() && symbol_length(text) == text.size();
}

Expression parse_expression(std::string_view text, std::vector<std::string_view> names) {
  return ExpressionReader(text, std::move(names)).whole();
}

}  // namespace panel_dossier::testing
