#include "core/dossier/guidance/calendar.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <iterator>
#include <utility>

#include "core/api/support/iso_date.h"
#include "core/api/support/text_encoding.h"
#include "core/api/support/words.h"
#include "core/dossier/layout/number_format.h"
#include "core/intake/document/sha256.h"

namespace panel_dossier {

namespace {

constexpr int kMonthsPerYear = 12;
constexpr int kFirstYears = 10;
constexpr double kLongestLife_years = 500.0;

struct CalendarStart {
  std::string day;
  std::string source;
  std::string who;
};

CalendarStart start_of(const Project& project, const Settings& settings) {
  std::string newest;
  std::vector<std::string> without;
  for (const Panel& panel : project.panels) {
    const auto day = panel.properties.text("Panel_Install", "Date");
    if (!day || !is_iso_date(day->value)) {
      without.push_back(panel.mark);
    } else {
      newest = std::max(newest, day->value);
    }
  }
  constexpr const char* kWho = "whoever hands over (setting handover.date), or the installer (records 'installation')";
  if (const auto stated = settings.text("handover.date")) {
    if (stated->value < newest) {
      return {{},
              "the setting handover.date is " + stated->value + ", but a panel was installed on " + newest +
                  ": one of them is wrong",
              kWho};
    }
    return {stated->value, "day of handover, setting handover.date", {}};
  }
  if (without.empty() && !newest.empty()) return {newest, "the last installation of a panel", {}};
  return {{},
          "no day of handover is set, and " + std::to_string(without.size()) + " of " +
              std::to_string(project.panels.size()) + " panels have no day of installation",
          kWho};
}

std::string uid_of(const Project& project, const GuidanceRow& row, const std::string& of, const std::string& day) {
  constexpr std::size_t kDigits = 32;
  const std::string digest = to_hex(sha256(project.global_id + '\n' + row.id + '\n' + of + '\n' + day));
  return digest.substr(0, kDigits) + "@panel-dossier.invalid";
}

std::string names_of_subjects(const Advice& advice, const std::vector<Subject>& subjects) {
  constexpr std::size_t kNamesShown = 4;
  std::vector<std::string> names;
  for (const std::size_t index : advice.subjects) {
    const Subject& subject = subjects[index];
    if (subject.kind == SubjectKind::panel || subject.kind == SubjectKind::project) return {};
    if (std::find(names.begin(), names.end(), subject.name) == names.end()) names.push_back(subject.name);
  }
  if (names.size() > kNamesShown) {
    const std::size_t more = names.size() - kNamesShown;
    names.resize(kNamesShown);
    names.push_back(std::to_string(more) + " more");
  }
  return joined(names);
}

/// A text of a property by RFC 5545, 3.3.11.
std::string escaped(std::string_view text) {
  std::string result;
  for (const char c : visible_lines(text)) {
    if (c == '\n') {
      result += "\\n";
      continue;
    }
    if (c == '\\' || c == ';' || c == ',') result += '\\';
    result += c;
  }
  return result;
}

/// One content line by RFC 5545, 3.1: no line of more than 75 octets, and no character cut.
std::string folded(const std::string& line) {
  constexpr std::size_t kMostOctets = 75;
  std::string result;
  std::size_t at = 0;
  std::size_t most = kMostOctets;
  while (line.size() - at > most) {
    std::size_t cut = at + most;
    while (cut > at && (static_cast<unsigned char>(line[cut]) & 0xC0U) == 0x80U) --cut;
    result.append(line, at, cut - at).append("\r\n ");
    at = cut;
    most = kMostOctets - 1;  // the blank that marks the fold counts
  }
  return result.append(line, at).append("\r\n");
}

/// `2027-04-08` -> `20270408`; of a time `2026-06-01T02:00:00Z` -> `20260601T020000Z`.
std::string basic_form(std::string_view time) {
  std::string result;
  std::copy_if(time.begin(), time.end(), std::back_inserter(result), [](char c) { return c != '-' && c != ':'; });
  return result;
}

std::string marks_in_words(const Project& project, const std::vector<std::size_t>& panels) {
  if (panels.size() > 1 && panels.size() == project.panels.size())
    return "all " + std::to_string(panels.size()) + " panels";
  std::vector<std::string> marks;
  marks.reserve(panels.size());
  for (const std::size_t panel : panels) marks.push_back(project.panels[panel].mark);
  return joined(marks);
}

std::chrono::year_month_day date_of(std::string_view day) {
  const auto number = [day](std::size_t at, std::size_t size) {
    int value = 0;
    for (const char c : day.substr(at, size)) value = value * 10 + (c - '0');
    return value;
  };
  return {std::chrono::year(number(0, 4)), std::chrono::month(static_cast<unsigned>(number(5, 2))),
          std::chrono::day(static_cast<unsigned>(number(8, 2)))};
}

std::string iso_text(const std::chrono::year_month_day& date) {
  std::array<char, 32> text{};
  const int size = std::snprintf(text.data(), text.size(), "%04d-%02u-%02u", static_cast<int>(date.year()),
                                 static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
  return {text.data(), static_cast<std::size_t>(size)};
}

}  // namespace

std::string months_later(std::string_view day, int months) {
  std::chrono::year_month_day date = date_of(day);
  date += std::chrono::months(months);
  if (!date.ok()) date = date.year() / date.month() / std::chrono::last;
  return iso_text(date);
}

Calendar calendar_of(const std::vector<Advice>& advice, const std::vector<GuidanceRow>& rows,
                     const std::vector<Subject>& subjects, const Project& project, const Settings& settings) {
  Calendar calendar;
  CalendarStart start = start_of(project, settings);
  calendar.start = std::move(start.day);
  calendar.start_source = std::move(start.source);
  calendar.start_who = std::move(start.who);
  if (calendar.start.empty()) return calendar;
  int months = kFirstYears * kMonthsPerYear;
  const auto life_years = settings.number("handover.design_life_years");
  if (life_years && life_years->value <= kLongestLife_years) {
    months = static_cast<int>(std::lround(life_years->value * kMonthsPerYear));
    calendar.end = months_later(calendar.start, months);
  }
  for (const Advice& one : advice) {
    if (!one.interval_years || !one.missing.empty()) continue;
    const int interval = static_cast<int>(std::lround(*one.interval_years * kMonthsPerYear));
    const GuidanceRow& row = rows[one.row];
    const std::string of = names_of_subjects(one, subjects);
    // At the end of the building's life nothing is renewed.
    for (int month = interval; interval > 0 && month < months; month += interval) {
      const std::string day = months_later(calendar.start, month);
      calendar.entries.push_back(
          {day, one.text, of, row.who, row.source, one.panels, uid_of(project, row, of + one.text, day)});
    }
  }
  std::stable_sort(calendar.entries.begin(), calendar.entries.end(),
                   [](const CalendarEntry& a, const CalendarEntry& b) { return a.day < b.day; });
  return calendar;
}

std::string icalendar(const Calendar& calendar, const Project& project, std::string_view time_utc) {
  std::string text =
      "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//panel-dossier//maintenance calendar//EN\r\n"
      "CALSCALE:GREGORIAN\r\nMETHOD:PUBLISH\r\n";
  text += folded("X-WR-CALNAME:" + escaped("Panels of " + project.name));
  const std::string stamp = basic_form(time_utc);
  for (const CalendarEntry& entry : calendar.entries) {
    text += "BEGIN:VEVENT\r\n";
    text += folded("UID:" + entry.uid);
    text += folded("DTSTAMP:" + stamp);
    text += folded("DTSTART;VALUE=DATE:" + basic_form(entry.day));
    text += folded("DTEND;VALUE=DATE:" +
                   basic_form(iso_text(std::chrono::sys_days(date_of(entry.day)) + std::chrono::days(1))));
    text += folded("SUMMARY:" + escaped(entry.of.empty() ? entry.what : entry.of + ": " + entry.what));
    std::string description = "Panels: " + marks_in_words(project, entry.panels);
    if (!entry.who.empty()) description += "\nBy: " + entry.who;
    description += "\nSource: " + entry.source;
    text += folded("DESCRIPTION:" + escaped(description));
    text += "TRANSP:TRANSPARENT\r\nEND:VEVENT\r\n";
  }
  return text += "END:VCALENDAR\r\n";
}

}  // namespace panel_dossier
