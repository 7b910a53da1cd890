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

bool is_short_length(double value, std::string_view unit) {
  constexpr double kShortest_m = 0.1;
  return unit == "m" && value != 0.0 && std::fabs(value) < kShortest_m;
}

std::string readable_text(const Value& value, const std::string& unit, int decimals) {
  constexpr double kMillimetres = 1000.0;
  constexpr int kDecimalsOfMillimetres = 3;
  const auto* number = std::get_if<double>(&value);
  if (number == nullptr || !is_short_length(*number, unit)) return value_text(value, unit, decimals);
  return value_text(*number * kMillimetres, "mm", decimals - kDecimalsOfMillimetres);
}

std::string exact_value_text(const Value& value, const std::string& unit) {
  return text_of(value, unit, shortest_number);
}

std::string list_some(const std::vector<std::string>& names, std::size_t shown) {
  std::string text;
  const std::size_t count = names.size() <= shown + 1 ? names.size() : shown;
  for (std::size_t i = 0; i < count; ++i) text += (i == 0 ? "" : ", ") + names[i];
  if (count < names.size()) text += " and " + std::to_string(names.size() - count) + " more";
  return text;
}

}  // namespace panel_dossier
