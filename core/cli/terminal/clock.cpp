#include "core/cli/terminal/clock.h"

#include <array>
#include <chrono>
#include <cstdio>
#include <ctime>

namespace panel_dossier {

std::string time_now_utc() {
  const std::time_t now = std::time(nullptr);
  std::tm parts{};
  gmtime_r(&now, &parts);
  std::array<char, 32> text{};
  std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%SZ", &parts);
  return text.data();
}

bool is_time_utc(const std::string& text) {
  int year = 0;
  unsigned month = 0;
  unsigned day = 0;
  int hour = 0;
  int minute = 0;
  int second = 0;
  std::array<char, 2> rest{};
  if (text.size() != 20 || std::sscanf(text.c_str(), "%4d-%2u-%2uT%2d:%2d:%2d%1[Z]", &year, &month, &day, &hour,
                                       &minute, &second, rest.data()) != 7) {
    return false;
  }
  const std::chrono::year_month_day date{std::chrono::year(year), std::chrono::month(month), std::chrono::day(day)};
  const bool clock_exists = hour >= 0 && hour < 24 && minute >= 0 && minute < 60 && second >= 0 && second < 60;
  return date.ok() && clock_exists;
}

}  // namespace panel_dossier
