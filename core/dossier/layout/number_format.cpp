#include "core/dossier/layout/number_format.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

#include "core/trace/value_text.h"

namespace panel_dossier {

namespace {

constexpr int kSignificantDigits = 4;
constexpr double kSmallestPlain = 1e-4;
constexpr double kLargestPlain = 1e7;
constexpr std::string_view kMinus = "\u2212";

std::string digits(double magnitude, std::chars_format format, int precision) {
  std::array<char, 512> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), magnitude, format, precision);
  return {buffer.data(), end.ptr};
}

void drop_trailing_zeros(std::string& text) {
  if (text.find('.') == std::string::npos) return;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
}

std::string with_sign(const std::string& magnitude, bool negative) {
  const bool zero = magnitude.find_first_not_of("0.") == std::string::npos;
  return negative && !zero ? std::string(kMinus) + magnitude : magnitude;
}

std::string superscript(int number) {
  static constexpr std::array<std::string_view, 10> kDigits{"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
  std::string text = number < 0 ? "⁻" : "";
  for (const char digit : std::to_string(std::abs(number))) text += kDigits[static_cast<std::size_t>(digit - '0')];
  return text;
}

std::string scientific(double magnitude) {
  const std::string text = digits(magnitude, std::chars_format::scientific, kSignificantDigits - 1);
  const auto exponent = text.find('e');
  std::string mantissa = text.substr(0, exponent);
  drop_trailing_zeros(mantissa);
  return mantissa + " × 10" + superscript(std::stoi(text.substr(exponent + 1)));
}

std::string with_unit(std::string value, std::string_view unit) {
  const std::string symbol = format_unit(unit);
  if (symbol.empty() || value.empty()) return value;
  return value + " " + symbol;
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

std::string_view relation_sign(Relation relation) {
  switch (relation) {
    case Relation::at_most: return "≤ ";
    case Relation::at_least: return "≥ ";
    case Relation::equals: return "= ";
    case Relation::none: break;
  }
  return "";
}

}  // namespace

std::string format_fixed(double value, int decimals) {
  if (!std::isfinite(value)) return "not a number";
  return with_sign(digits(std::fabs(value), std::chars_format::fixed, std::clamp(decimals, 0, 12)), value < 0.0);
}

std::string format_significant(double value) {
  if (!std::isfinite(value)) return "not a number";
  const double magnitude = std::fabs(value);
  if (magnitude == 0.0) return "0";
  if (magnitude < kSmallestPlain || magnitude >= kLargestPlain) return with_sign(scientific(magnitude), value < 0.0);
  const int whole_digits = static_cast<int>(std::floor(std::log10(magnitude))) + 1;
  std::string text = digits(magnitude, std::chars_format::fixed, std::max(0, kSignificantDigits - whole_digits));
  drop_trailing_zeros(text);
  return with_sign(text, value < 0.0);
}

std::string format_millimetres(double length_m) {
  constexpr double kWholeWithinMillimetres = 0.05;
  const double length_mm = length_m * 1000.0;
  return format_fixed(length_mm, std::fabs(length_mm - std::round(length_mm)) < kWholeWithinMillimetres ? 0 : 1);
}

std::string format_unit(std::string_view unit) {
  std::string text(unit);
  if (text == "1") return "";
  for (const auto& [from, to] : std::array<std::pair<std::string_view, std::string_view>, 7>{
           {{"CO2", "CO₂"}, {"m2", "m²"}, {"m3", "m³"}, {"m4", "m⁴"}, {"degC", "°C"}, {"^2", "²"}, {"^3", "³"}}})
    replace_all(text, from, to);
  return text;
}

std::string format_value(const Value& value, std::string_view unit) {
  if (const auto* number = std::get_if<double>(&value)) return with_unit(format_significant(*number), unit);
  if (const auto* text = std::get_if<std::string>(&value)) return with_unit(*text, unit);
  return {};
}

std::string format_value(const Value& value, std::string_view unit, int decimals) {
  const auto* number = std::get_if<double>(&value);
  if (number == nullptr) return format_value(value, unit);
  return is_short_length(*number, unit) ? format_significant(*number * 1000.0) + " mm"
                                        : with_unit(format_fixed(*number, decimals), unit);
}

std::string in_number(std::size_t count, const char* noun) {
  return std::to_string(count) + " " + noun + (count == 1 ? "" : "s");
}

std::string format_limit(const RecordedFinding& finding) {
  const std::string limit = format_value(finding.limit, finding.unit, finding.derivation->decimals);
  return limit.empty() ? limit : std::string(relation_sign(finding.relation)) + limit;
}

std::string format_limit_figure(const RecordedFinding& finding) {
  const std::string value = format_value(finding.value, finding.unit, finding.derivation->decimals);
  std::string limit = format_limit(finding);
  constexpr std::string_view kEqual = "= ";  // a column of limits says so of words that are to be the same
  if (std::holds_alternative<std::string>(finding.value) && limit.starts_with(kEqual)) limit.erase(0, kEqual.size());
  for (const std::string& unit : {" " + format_unit(finding.unit), std::string(" mm")}) {
    if (unit.size() > 1 && value.ends_with(unit) && limit.ends_with(unit)) {
      limit.resize(limit.size() - unit.size());
      break;
    }
  }
  return limit;
}

}  // namespace panel_dossier
