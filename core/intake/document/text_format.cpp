#include "core/intake/document/text_format.h"

#include <array>
#include <charconv>
#include <cmath>

namespace panel_dossier {

std::string metres(double value_m) {
  constexpr double kLargestFixed = 1e15;
  std::array<char, 64> digits{};
  const auto format = std::abs(value_m) < kLargestFixed ? std::chars_format::fixed : std::chars_format::scientific;
  const auto result = std::to_chars(digits.data(), digits.data() + digits.size(), value_m, format, 4);
  std::string text(digits.data(), result.ptr);
  if (format == std::chars_format::fixed) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text + " m";
}

}  // namespace panel_dossier
