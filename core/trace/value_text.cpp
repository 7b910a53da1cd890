#include "core/trace/value_text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "core/pipeline/record/json.h"

namespace panel_dossier {

namespace {

template <typename Format>
std::string text_of(const Value& value, const std::string& unit, Format format) {
  if (const auto* text = std::get_if<std::string>(&value)) return *text;
  const auto* number = std::get_if<double>(&value);
  if (number == nullptr) return "none";
  return format(*number) + (unit.empty() ? "" : " " + unit);
}

std::string fixed(double number, int decimals) {
  // Room for the largest double: 309 digits, sign, point and decimals.
  std::array<char, 400> buffer{};
  constexpr int kMostDecimals = 15;
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), number, std::chars_format::fixed,
                                 std::clamp(decimals, 0, kMostDecimals));
  return {buffer.data(), end.ptr};
}

}  // namespace

std::string value_text(const Value& value, const std::string& unit, int decimals) {
  return text_of(value, unit, [decimals](double number) { return fixed(number, decimals); });
}

std::string exact_value_text(const Value& value, const std::string& unit) {
  return text_of(value, unit, shortest_number);
}

}  // namespace panel_dossier
