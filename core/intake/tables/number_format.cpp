#include "core/intake/tables/number_format.h"

#include <array>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <cstdio>

namespace panel_dossier {

NumberFormat built_in_format(std::uint32_t id) {
  if (id == 9 || id == 10) return NumberFormat::percent;
  // 14 to 17 and 22 are days; 27 to 31, 36, 50 to 54, 57 and 58 are those of East Asian programs.
  const bool is_day = (id >= 14 && id <= 17) || id == 22 || (id >= 27 && id <= 31) || id == 36 ||
                      (id >= 50 && id <= 54) || id == 57 || id == 58;
  return is_day ? NumberFormat::date : NumberFormat::general;
}

NumberFormat format_of_code(std::string_view code) {
  bool is_percent = false;
  for (std::size_t i = 0; i < code.size(); ++i) {
    const char c = code[i];
    if (c == '\\' || c == '_' || c == '*') {
      ++i;  // the next sign is shown, or its width or itself fills the cell
    } else if (c == '"' || c == '[') {
      const std::size_t end = code.find(c == '"' ? '"' : ']', i + 1);
      if (end == std::string_view::npos) break;
      i = end;
    } else if (c == 'y' || c == 'Y' || c == 'd' || c == 'D') {
      return NumberFormat::date;
    } else {
      is_percent = is_percent || c == '%';
    }
  }
  return is_percent ? NumberFormat::percent : NumberFormat::general;
}

std::optional<std::string> day_of_serial(double serial, DateSystem system) {
  constexpr double kLastSerial = 2'958'465.0;  // 9999-12-31 from 1900
  constexpr int kDayThatNeverWas = 60;         // 1900-02-29
  constexpr double kMinutesPerDay = 1440.0;
  if (!(serial >= 0.0) || serial > kLastSerial) return std::nullopt;
  int days = static_cast<int>(std::floor(serial));
  int minutes = static_cast<int>(std::lround((serial - days) * kMinutesPerDay));
  if (minutes == static_cast<int>(kMinutesPerDay)) {
    ++days;
    minutes = 0;
  }
  using std::chrono::sys_days;
  sys_days first = sys_days(std::chrono::year{1904} / 1 / 1);
  if (system == DateSystem::from_1900) {
    if (days == 0 || days == kDayThatNeverWas) return std::nullopt;
    first = sys_days(std::chrono::year{1899} / 12 / (days < kDayThatNeverWas ? 31 : 30));
  }
  const std::chrono::year_month_day day(first + std::chrono::days(days));
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "%04d-%02u-%02u", static_cast<int>(day.year()),
                static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()));
  std::string found = text.data();
  if (minutes == 0) return found;
  std::snprintf(text.data(), text.size(), "T%02d:%02d", minutes / 60, minutes % 60);
  return found + text.data();
}

}  // namespace panel_dossier
