#include "core/api/support/iso_date.h"

#include <cctype>
#include <charconv>
#include <chrono>
#include <cstddef>

namespace panel_dossier {

namespace {

/// Precondition: digits only, few enough for an int.
int whole_number(std::string_view digits) {
  int value = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

/// None where the text is not `YYYY-MM-DD` with a day that exists.
std::optional<std::chrono::sys_days> day_of(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i != 4 && i != 7 && std::isdigit(static_cast<unsigned char>(text[i])) == 0) return std::nullopt;
  }
  const std::chrono::year_month_day date{std::chrono::year(whole_number(text.substr(0, 4))),
                                         std::chrono::month(static_cast<unsigned>(whole_number(text.substr(5, 2)))),
                                         std::chrono::day(static_cast<unsigned>(whole_number(text.substr(8, 2))))};
  if (!date.ok()) return std::nullopt;
  return std::chrono::sys_days(date);
}

}  // namespace

bool is_iso_date(std::string_view text) {
  return day_of(text).has_value();
}

std::optional<int> days_between(std::string_view from, std::string_view until) {
  const auto first = day_of(from);
  const auto last = day_of(until);
  if (!first || !last) return std::nullopt;
  return static_cast<int>((*last - *first).count());
}

}  // namespace panel_dossier
