#include "core/intake/claims/claimed_value.h"

#include <algorithm>
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
  if (const double* number = std::get_if<double>(&property.value)) return with_unit(*number, property.unit);
  if (const auto* text = std::get_if<std::string>(&property.value)) return "'" + *text + "'";
  return std::get<bool>(property.value) ? "true" : "false";
}

}  // namespace panel_dossier
