#include "core/intake/graph/duration.h"

#include <array>
#include <cstddef>
#include <string>

#include "core/api/support/units.h"
#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

constexpr double kSecondPerMinute = 60.0;
constexpr double kDaysPerWeek = 7.0;
constexpr double kMonthsPerYear = 12.0;

struct DurationPart {
  char designator;
  double seconds;
};

// In the order in which they are written.
constexpr std::array kDateParts{
    DurationPart{'Y', units::kSecondPerYear}, DurationPart{'M', units::kSecondPerYear / kMonthsPerYear},
    DurationPart{'W', kDaysPerWeek* units::kSecondPerDay}, DurationPart{'D', units::kSecondPerDay}};
constexpr std::array kTimeParts{DurationPart{'H', units::kSecondPerHour}, DurationPart{'M', kSecondPerMinute},
                                DurationPart{'S', 1.0}};

/// Reads the parts in their order from the front of `text`, which is left with what follows them.
template <std::size_t N>
std::optional<double> read_parts(std::string_view& text, const std::array<DurationPart, N>& parts) {
  std::optional<double> sum;
  for (const DurationPart& part : parts) {
    const std::size_t digits = text.find_first_not_of("0123456789.,");
    if (digits == 0 || digits == std::string_view::npos || text[digits] != part.designator) continue;
    std::string number(text.substr(0, digits));
    if (const std::size_t comma = number.find(','); comma != std::string::npos) number[comma] = '.';
    const auto value = parse_decimal(number);
    if (!value) return std::nullopt;
    sum = sum.value_or(0.0) + *value * part.seconds;
    text.remove_prefix(digits + 1);
  }
  return sum;
}

}  // namespace

std::optional<double> seconds_of_duration(std::string_view text) {
  text = trimmed(text);
  if (!text.starts_with('P')) return std::nullopt;
  text.remove_prefix(1);
  std::optional<double> seconds = read_parts(text, kDateParts);
  if (text.starts_with('T')) {
    text.remove_prefix(1);
    const auto of_time = read_parts(text, kTimeParts);
    if (!of_time) return std::nullopt;
    seconds = seconds.value_or(0.0) + *of_time;
  }
  return text.empty() ? seconds : std::nullopt;
}

}  // namespace panel_dossier
