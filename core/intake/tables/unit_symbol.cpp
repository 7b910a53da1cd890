#include "core/intake/tables/unit_symbol.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>

#include "core/api/support/units.h"

namespace panel_dossier {

namespace {

/// Powers of metre, kilogram, second and kelvin.
using Dimension = std::array<int, 4>;

struct ParsedUnit {
  double factor = 1.0;  ///< to the coherent SI unit
  Dimension dimension{};
};

struct NamedUnit {
  std::string_view symbol;
  ParsedUnit unit;
  bool takes_prefix;
};

constexpr double kGram = 1e-3;

// ISO 80000-1:2009 and the units of its table 5 that are used with the SI.
constexpr std::array kNamedUnits{
    NamedUnit{"m", {1.0, {1, 0, 0, 0}}, true},
    NamedUnit{"g", {kGram, {0, 1, 0, 0}}, true},
    NamedUnit{"t", {units::kKilogramPerTonne, {0, 1, 0, 0}}, false},
    NamedUnit{"s", {1.0, {0, 0, 1, 0}}, false},
    NamedUnit{"min", {60.0, {0, 0, 1, 0}}, false},
    NamedUnit{"h", {units::kSecondPerHour, {0, 0, 1, 0}}, false},
    NamedUnit{"d", {units::kSecondPerDay, {0, 0, 1, 0}}, false},
    NamedUnit{"K", {1.0, {0, 0, 0, 1}}, false},
    NamedUnit{"N", {1.0, {1, 1, -2, 0}}, true},
    NamedUnit{"Pa", {1.0, {-1, 1, -2, 0}}, true},
    NamedUnit{"J", {1.0, {2, 1, -2, 0}}, true},
    NamedUnit{"Wh", {units::kSecondPerHour, {2, 1, -2, 0}}, true},
    NamedUnit{"W", {1.0, {2, 1, -3, 0}}, true},
    NamedUnit{"Hz", {1.0, {0, 0, -1, 0}}, true},
    NamedUnit{"rad", {1.0, {0, 0, 0, 0}}, false},
    NamedUnit{"%", {1.0 / units::kPercentPerWhole, {0, 0, 0, 0}}, false},
    NamedUnit{"1", {1.0, {0, 0, 0, 0}}, false},
};

constexpr std::array kUnitPrefixes{std::pair{'G', 1e9},  std::pair{'M', 1e6},  std::pair{'k', 1e3},
                                   std::pair{'d', 1e-1}, std::pair{'c', 1e-2}, std::pair{'m', 1e-3},
                                   std::pair{'u', 1e-6}, std::pair{'n', 1e-9}};

std::optional<ParsedUnit> find_unit(std::string_view symbol) {
  for (const NamedUnit& named : kNamedUnits) {
    if (named.symbol == symbol) return named.unit;
  }
  for (const auto& [sign, factor] : kUnitPrefixes) {
    if (symbol.size() < 2 || symbol.front() != sign) continue;
    for (const NamedUnit& named : kNamedUnits) {
      if (named.takes_prefix && named.symbol == symbol.substr(1)) {
        return ParsedUnit{named.unit.factor * factor, named.unit.dimension};
      }
    }
  }
  return std::nullopt;
}

void multiply(ParsedUnit& unit, const ParsedUnit& by, int power) {
  unit.factor *= std::pow(by.factor, power);
  for (std::size_t i = 0; i < unit.dimension.size(); ++i) unit.dimension[i] += power * by.dimension[i];
}

/// In ASCII: `·` and `⋅` as `.`, `²` and `³` as digits, `µ` as `u`; without blanks around other signs.
std::string plain_signs(std::string_view text) {
  constexpr std::array kSigns{std::pair{std::string_view("·"), '.'}, std::pair{std::string_view("⋅"), '.'},
                              std::pair{std::string_view("²"), '2'}, std::pair{std::string_view("³"), '3'},
                              std::pair{std::string_view("µ"), 'u'}, std::pair{std::string_view("μ"), 'u'}};
  std::string plain;
  while (!text.empty()) {
    const auto found =
        std::find_if(kSigns.begin(), kSigns.end(), [text](const auto& sign) { return text.starts_with(sign.first); });
    const bool is_sign = found != kSigns.end();
    plain += is_sign ? found->second : text.front();
    text.remove_prefix(is_sign ? found->first.size() : 1);
  }
  return plain;
}

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '%';
}
bool is_power(char c) {
  return c >= '2' && c <= '9';
}

/// Reads products and quotients from left to right; what stands together without a sign is one divisor, as in `W/mK`.
class UnitParser {
 public:
  explicit UnitParser(std::string text) : text_(std::move(text)) {}

  std::optional<ParsedUnit> parse() {
    auto unit = expression(0);
    return at_ == text_.size() ? unit : std::nullopt;
  }

 private:
  std::string text_;
  std::size_t at_ = 0;

  char sign() const { return at_ < text_.size() ? text_[at_] : '\0'; }

  std::optional<ParsedUnit> expression(int depth) {
    constexpr int kMostBrackets = 4;
    if (depth > kMostBrackets) return std::nullopt;
    ParsedUnit product;
    for (int power = 1;;) {
      const auto group = group_of_factors(depth);
      if (!group) return std::nullopt;
      multiply(product, *group, power);
      const char next = sign();
      if (next != '.' && next != '*' && next != '/' && next != ' ') return product;
      power = next == '/' ? -1 : 1;
      ++at_;
    }
  }

  std::optional<ParsedUnit> group_of_factors(int depth) {
    std::optional<ParsedUnit> group;
    while (sign() == '(' || is_letter(sign()) || (!group && sign() == '1')) {
      const auto factor = single_factor(depth);
      if (!factor) return std::nullopt;
      if (!group) group.emplace();
      multiply(*group, *factor, exponent());
    }
    return group;
  }

  std::optional<ParsedUnit> single_factor(int depth) {
    if (sign() == '1') {
      ++at_;
      return ParsedUnit{};
    }
    if (sign() == '(') {
      ++at_;
      auto inner = expression(depth + 1);
      if (!inner || sign() != ')') return std::nullopt;
      ++at_;
      return inner;
    }
    const std::size_t start = at_;
    while (is_letter(sign())) ++at_;
    const std::string_view symbol = std::string_view(text_).substr(start, at_ - start);
    if (auto unit = find_unit(symbol)) return unit;
    // `mK`: a kelvin takes no prefix here, so it is a metre and a kelvin.
    if (!symbol.ends_with('K')) return std::nullopt;
    auto unit = find_unit(symbol.substr(0, symbol.size() - 1));
    if (unit) multiply(*unit, *find_unit("K"), 1);
    return unit;
  }

  int exponent() {
    if (sign() == '^') ++at_;
    if (!is_power(sign())) return 1;
    return text_[at_++] - '0';
  }
};

std::string without_blanks(std::string text) {
  std::erase(text, ' ');
  return text;
}

}  // namespace

std::optional<double> unit_conversion(std::string_view written, std::string_view wanted) {
  constexpr std::size_t kLongestUnit = 60;
  if (written.size() > kLongestUnit) return std::nullopt;
  const std::string from = plain_signs(written);
  const std::string to = plain_signs(wanted);
  if (without_blanks(from) == without_blanks(to)) return 1.0;
  if (to.empty() && (from == "-" || from == "–")) return 1.0;
  if (from.empty()) return std::nullopt;
  const auto source = UnitParser(from).parse();
  const auto target = to.empty() ? ParsedUnit{} : UnitParser(to).parse();
  if (!source || !target || source->dimension != target->dimension) return std::nullopt;
  return source->factor / target->factor;
}

}  // namespace panel_dossier
