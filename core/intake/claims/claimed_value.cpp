#include "core/intake/claims/claimed_value.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <variant>

#include "core/api/support/words.h"

namespace panel_dossier {

bool is_same_claim(const Property& a, const Property& b) {
  constexpr double kRoundingOfClaims = 1e-4;
  if (a.value.index() != b.value.index()) return false;
  if (const double* number = std::get_if<double>(&a.value)) {
    const double other = std::get<double>(b.value);
    return std::abs(*number - other) <= kRoundingOfClaims * std::max(std::abs(*number), std::abs(other));
  }
  if (const auto* text = std::get_if<std::string>(&a.value)) {
    return lower_case(trimmed(*text)) == lower_case(trimmed(std::get<std::string>(b.value)));
  }
  return a.value == b.value;
}

std::string claim_in_words(const Property& property) {
  if (const double* number = std::get_if<double>(&property.value)) {
    // More digits are what the conversion of the unit left.
    constexpr int kDigits = 9;
    std::array<char, 32> text{};
    const auto written =
        std::to_chars(text.data(), text.data() + text.size(), *number, std::chars_format::general, kDigits);
    return std::string(text.data(), written.ptr) + (property.unit.empty() ? "" : " " + property.unit);
  }
  if (const auto* text = std::get_if<std::string>(&property.value)) return "'" + *text + "'";
  return std::get<bool>(property.value) ? "true" : "false";
}

}  // namespace panel_dossier
