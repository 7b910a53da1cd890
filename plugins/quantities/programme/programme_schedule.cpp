#include "plugins/quantities/programme/programme_schedule.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>
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

bool is_working_day(const WorkCalendar& calendar, const std::string& date) {
  const auto day = parse_date(date);
  return day && works_on(calendar, *day);
}

std::optional<int> working_days_between(const WorkCalendar& calendar, const std::string& from, const std::string& to) {
  constexpr chrono::days kMost{3660};
  const auto first = parse_date(from);
  const auto last = parse_date(to);
  if (!first || !last || *last - *first > kMost || *first - *last > kMost) return std::nullopt;
  const bool later = *last >= *first;
  int days = 0;
  for (chrono::sys_days day = std::min(*first, *last) + chrono::days{1}; day <= std::max(*first, *last);
       day += chrono::days{1}) {
    if (works_on(calendar, day)) ++days;
  }
  return later ? days : -days;
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

namespace {

constexpr double kMicroHoursInHour = 1.0e6;

/// The end of the latest load-bearing panel by storey of one building.
using BearingEnds = std::map<std::size_t, MicroHours>;

MicroHours end_below(const BearingEnds& ends, std::size_t storey) {
  MicroHours latest = 0;
  for (const auto& [below, end] : ends) {
    if (below < storey) latest = std::max(latest, end);
  }
  return latest;
}

}  // namespace

MicroHours micro_hours(double value_h) {
  return std::llround(value_h * kMicroHoursInHour);
}

std::vector<ErectionSlot> schedule_tasks(const std::vector<ErectionTask>& tasks, std::size_t cranes, MicroHours day) {
  // On one clock of lifting hours alone; nights and rest days take no time.
  std::vector<MicroHours> free(cranes, 0);
  std::vector<MicroHours> ends;
  std::vector<ErectionSlot> slots;
  std::map<std::size_t, BearingEnds> bearing;
  MicroHours previous_start = 0;
  for (const ErectionTask& task : tasks) {
    const auto crane = std::min_element(free.begin(), free.end());
    MicroHours start = std::max({*crane, previous_start, end_below(bearing[task.building], task.storey)});
    for (const std::size_t before : task.after) start = std::max(start, ends[before]);
    if (start % day + task.time > day + kRoundingSlack) start += day - start % day;
    const MicroHours dawn = start - start % day;
    const MicroHours end = std::min(start + task.time, dawn + day);
    *crane = end;
    previous_start = start;
    ends.push_back(end);
    MicroHours& latest = bearing[task.building][task.storey];
    if (task.bearing) latest = std::max(latest, end);
    slots.push_back({static_cast<std::size_t>(start / day), static_cast<std::size_t>(crane - free.begin()),
                     start - dawn, start + task.time - dawn});
  }
  return slots;
}

std::size_t days_of(const std::vector<ErectionSlot>& slots) {
  std::size_t days = 0;
  for (const ErectionSlot& slot : slots) days = std::max(days, slot.day + 1);
  return days;
}

std::size_t fewest_days(MicroHours total, std::size_t cranes, MicroHours day) {
  assert(cranes > 0);
  const MicroHours a_day = static_cast<MicroHours>(cranes) * (day + kRoundingSlack);
  return static_cast<std::size_t>((total + a_day - 1) / a_day);
}

}  // namespace panel_dossier::quantities
