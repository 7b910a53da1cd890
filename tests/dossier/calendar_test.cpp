// The calendar of inspections: days, and the file for calendar programs read back by the rules of RFC 5545.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/api/support/iso_date.h"
#include "core/dossier/guidance/guidance.h"
#include "core/dossier/handover/inspections.h"
#include "tests/dossier/synthetic_project.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;

namespace {

constexpr const char* kCalendarRows =
    "id,topic,of,when,text,who,interval_years,source\n"
    "a,operation.inspect,project,,\"Look; at, the \\ façade of this building, which is a long sentence indeed – for a "
    "line.\",owner,1,s\n"
    "b,operation.clean,panel,panel.openings=window,Clean the windows.,cleaner,0.5,s\n";

Calendar calendar_for(const test::SyntheticDossier& made) {
  GuidanceTables tables;
  tables.rows = parse_guidance(kCalendarRows, "t.csv");
  return make_guidance(made.project, made.settings, made.results, tables).calendar;
}

test::SyntheticDossier with_start(const char* day) {
  auto made = test::synthetic_dossier(2, 0);
  made.settings.set("handover.date", std::string(day));
  return made;
}

/// Content lines by RFC 5545, 3.1: checks their ends and lengths, and unfolds them.
std::vector<std::string> content_lines(const std::string& ics) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < ics.size();) {
    const std::size_t end = ics.find("\r\n", at);
    REQUIRE(end != std::string::npos);
    const std::string line = ics.substr(at, end - at);
    CHECK(line.size() <= 75);
    CHECK(line.find('\n') == std::string::npos);
    // A fold cuts no character: no line begins with a byte that goes on.
    const std::size_t first = line.starts_with(' ') ? 1 : 0;
    REQUIRE(line.size() > first);
    CHECK((static_cast<unsigned char>(line[first]) & 0xC0U) != 0x80U);
    if (first == 1) {
      REQUIRE_FALSE(lines.empty());
      lines.back() += line.substr(1);
    } else {
      lines.push_back(line);
    }
    at = end + 2;
  }
  return lines;
}

/// A text of 3.3.11 as it was before it was escaped.
std::string unescaped(const std::string& text) {
  std::string result;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\') {
      CHECK(text[i] != ';');
      CHECK(text[i] != ',');
      result += text[i];
      continue;
    }
    REQUIRE(++i < text.size());
    result += text[i] == 'n' ? '\n' : text[i];
  }
  return result;
}

using IcsEvent = std::map<std::string, std::string>;

std::vector<IcsEvent> events_of(const std::vector<std::string>& lines) {
  REQUIRE(lines.size() > 4);
  CHECK(lines.front() == "BEGIN:VCALENDAR");
  CHECK(lines.back() == "END:VCALENDAR");
  std::vector<IcsEvent> events;
  bool inside = false;
  for (const std::string& line : lines) {
    if (line == "BEGIN:VEVENT") {
      CHECK_FALSE(inside);
      inside = true;
      events.emplace_back();
    } else if (line == "END:VEVENT") {
      CHECK(inside);
      inside = false;
    } else if (inside) {
      const std::size_t colon = line.find(':');
      REQUIRE(colon != std::string::npos);
      CHECK(events.back().emplace(line.substr(0, colon), line.substr(colon + 1)).second);
    }
  }
  CHECK_FALSE(inside);
  return events;
}

}  // namespace

TEST_CASE("a day some months later is one that there is") {
  CHECK(months_later("2026-07-01", 12) == "2027-07-01");
  CHECK(months_later("2024-02-29", 12) == "2025-02-28");
  CHECK(months_later("2024-02-29", 48) == "2028-02-29");
  CHECK(months_later("2026-08-31", 6) == "2027-02-28");
  CHECK(months_later("2026-12-15", 1) == "2027-01-15");
}

TEST_CASE("the calendar runs from the handover over the building's life") {
  auto made = with_start("2026-07-01");
  made.settings.set("handover.design_life_years", 60.0);
  const Calendar calendar = calendar_for(made);
  CHECK(calendar.start == "2026-07-01");
  CHECK(calendar.end == "2086-07-01");
  CHECK(calendar.entries.size() == 59 + 119);
  CHECK(calendar.entries.front().day == "2027-01-01");
  CHECK(calendar.entries.front().panels == std::vector<std::size_t>{1});
  CHECK(calendar.entries.back().day == "2086-01-01");
  CHECK(std::is_sorted(calendar.entries.begin(), calendar.entries.end(),
                       [](const auto& a, const auto& b) { return a.day < b.day; }));
  for (const CalendarEntry& entry : calendar.entries) CHECK(is_iso_date(entry.day));
  std::vector<std::vector<DatedInspection>> next(2);
  add_next_planned(next, calendar, "2027-07-01");
  REQUIRE(next[0].size() == 1);
  CHECK(next[0][0].day == "2028-07-01");
  REQUIRE(next[1].size() == 1);
  CHECK(next[1][0].day == "2028-01-01");
  CHECK_FALSE(next[1][0].what.empty());
  std::vector<std::vector<DatedInspection>> last(2);
  add_next_planned(last, calendar, "2086-01-01");
  CHECK(last[0].empty());
}

TEST_CASE("without a life set the calendar ends after ten years") {
  const Calendar calendar = calendar_for(with_start("2026-07-01"));
  CHECK(calendar.end.empty());
  CHECK(calendar.entries.size() == 9 + 19);
}

TEST_CASE("where no day is known, or two speak against each other, there is no calendar") {
  auto made = test::synthetic_dossier(2, 0);
  CHECK(calendar_for(made).start.empty());
  CHECK_THAT(calendar_for(made).start_source, Contains("2 of 2 panels have no day of installation"));
  const auto install = [&made](std::size_t panel, const char* day) {
    made.project.panels[panel].properties.add(
        "Panel_Install", "Date", {std::string(day), "", test::export_origin("IfcPropertySingleValue", "Date", 9)});
  };
  install(0, "2026-04-07");
  CHECK(calendar_for(made).start.empty());
  install(1, "2026-04-09");
  CHECK(calendar_for(made).start == "2026-04-09");
  made.settings.set("handover.date", std::string("2026-04-08"));
  CHECK(calendar_for(made).entries.empty());
  CHECK_THAT(calendar_for(made).start_source, Contains("one of them is wrong"));
}

TEST_CASE("the calendar's file keeps the rules of RFC 5545 and is the same for the same input") {
  const auto made = with_start("2026-07-01");
  const Calendar calendar = calendar_for(made);
  const std::string ics = icalendar(calendar, made.project, "2026-11-25T02:00:00Z");
  CHECK(ics == icalendar(calendar_for(made), made.project, "2026-11-25T02:00:00Z"));
  const std::vector<std::string> lines = content_lines(ics);
  CHECK(std::count(lines.begin(), lines.end(), "VERSION:2.0") == 1);
  CHECK(std::count_if(lines.begin(), lines.end(), [](const auto& line) { return line.starts_with("PRODID:"); }) == 1);
  const std::vector<IcsEvent> events = events_of(lines);
  REQUIRE(events.size() == calendar.entries.size());
  std::set<std::string> uids;
  for (std::size_t i = 0; i < events.size(); ++i) {
    const IcsEvent& event = events[i];
    CHECK(uids.insert(event.at("UID")).second);
    CHECK(event.at("DTSTAMP") == "20261125T020000Z");
    CHECK(event.at("DTSTART;VALUE=DATE").size() == 8);
    CHECK(event.at("DTSTART;VALUE=DATE") < event.at("DTEND;VALUE=DATE"));
    CHECK(unescaped(event.at("SUMMARY")) == calendar.entries[i].what);
    CHECK_FALSE(event.contains("RRULE"));
  }
  CHECK(events.front().at("DTSTART;VALUE=DATE") == "20270101");
  CHECK_THAT(unescaped(events.front().at("DESCRIPTION")), Contains("Panels: P-2\nBy: cleaner\nSource: s"));
  // Another build has the same names for the same days.
  const auto later = events_of(content_lines(icalendar(calendar, made.project, "2026-11-26T02:00:00Z")));
  for (std::size_t i = 0; i < later.size(); ++i) CHECK(later[i].at("UID") == events[i].at("UID"));
}
