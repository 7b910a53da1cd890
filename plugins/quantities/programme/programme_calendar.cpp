#include "plugins/quantities/programme/programme_calendar.h"

#include <algorithm>
#include <optional>
#include <string_view>

#include "core/api/support/iso_date.h"

namespace panel_dossier::quantities {

namespace {

namespace chrono = std::chrono;

constexpr std::array<std::string_view, 7> kWeekdays{"Sunday",   "Monday", "Tuesday", "Wednesday",
                                                    "Thursday", "Friday", "Saturday"};

/// None for a text of another form and for a day that its month has not.
std::optional<chrono::sys_days> parse_date(const std::string& text) {
  if (!is_iso_date(text)) return std::nullopt;
  const chrono::year_month_day date{chrono::year{std::stoi(text.substr(0, 4))},
                                    chrono::month{static_cast<unsigned>(std::stoi(text.substr(5, 2)))},
                                    chrono::day{static_cast<unsigned>(std::stoi(text.substr(8, 2)))}};
  if (!date.ok()) return std::nullopt;
  return chrono::sys_days{date};
}

std::string padded(unsigned value, std::size_t width) {
  const std::string digits = std::to_string(value);
  return std::string(width - std::min(width, digits.size()), '0') + digits;
}

std::string iso_text(chrono::sys_days day) {
  const chrono::year_month_day date{day};
  return padded(static_cast<unsigned>(static_cast<int>(date.year())), 4) + "-" +
         padded(static_cast<unsigned>(date.month()), 2) + "-" + padded(static_cast<unsigned>(date.day()), 2);
}

/// The texts of a list in the settings; an element of another type is noted.
std::vector<std::string> read_list(FindingBuilder& finding, const Settings& settings, const std::string& name,
                                   const std::string& list) {
  std::vector<std::string> texts;
  for (std::size_t i = 0;; ++i) {
    const std::string key = list + "." + std::to_string(i);
    if (settings.all().count(key) == 0) return texts;
    const auto text = finding.text(name, settings.text(key), "setting '" + key + "' is not a text");
    if (text) texts.push_back(*text);
  }
}

std::string no_weekday(const std::string& name) {
  return "setting 'quantities.working_days' holds '" + name + "', which is no day from Monday to Sunday";
}

void read_weekdays(FindingBuilder& finding, const Settings& settings, WorkCalendar& calendar) {
  const std::string key = "quantities.working_days";
  const std::vector<std::string> names = read_list(finding, settings, "working day of the week", key);
  if (names.empty()) finding.missing("setting '" + key + "' is missing: a list of days such as \"Monday\"");
  for (const std::string& name : names) {
    const auto found = std::find(kWeekdays.begin(), kWeekdays.end(), name);
    if (found == kWeekdays.end()) {
      finding.missing(no_weekday(name));
    } else {
      calendar.works[static_cast<std::size_t>(found - kWeekdays.begin())] = true;
    }
  }
}

bool works_on(const WorkCalendar& calendar, chrono::sys_days day) {
  return calendar.works[chrono::weekday{day}.c_encoding()] && calendar.holidays.count(day) == 0;
}

}  // namespace

WorkCalendar read_calendar(FindingBuilder& finding, const Settings& settings) {
  WorkCalendar calendar;
  const std::string key = "quantities.start_date";
  const auto start = finding.text("first day of erection", settings.text(key),
                                  "setting '" + key + "' is missing: the first day of erection as YYYY-MM-DD");
  const auto day = start ? parse_date(*start) : std::nullopt;
  if (start && !day) finding.missing("setting '" + key + "' is '" + *start + "', which is no date YYYY-MM-DD");
  if (day) calendar.start = *day;
  read_weekdays(finding, settings, calendar);
  for (const std::string& text : read_list(finding, settings, "holiday", "quantities.holidays")) {
    const auto holiday = parse_date(text);
    if (holiday) {
      calendar.holidays.insert(*holiday);
    } else {
      finding.missing("setting 'quantities.holidays' holds '" + text + "', which is no date YYYY-MM-DD");
    }
  }
  return calendar;
}

std::vector<std::string> working_dates(const WorkCalendar& calendar, std::size_t count) {
  std::vector<std::string> dates;
  dates.reserve(count);
  for (chrono::sys_days day = calendar.start; dates.size() < count; day += chrono::days{1}) {
    if (works_on(calendar, day)) dates.push_back(iso_text(day));
  }
  return dates;
}

std::vector<std::string> working_dates_before(const WorkCalendar& calendar, std::size_t count) {
  std::vector<std::string> dates;
  dates.reserve(count);
  for (chrono::sys_days day = calendar.start - chrono::days{1}; dates.size() < count; day -= chrono::days{1}) {
    if (works_on(calendar, day)) dates.push_back(iso_text(day));
  }
  std::reverse(dates.begin(), dates.end());
  return dates;
}

bool starts_on_working_day(const WorkCalendar& calendar) {
  return works_on(calendar, calendar.start);
}

}  // namespace panel_dossier::quantities
