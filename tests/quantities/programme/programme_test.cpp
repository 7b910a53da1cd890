#include "plugins/quantities/programme/programme.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "tests/quantities/delivery_site.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

Finding programme_of(const Project& project, const Settings& given = site_settings()) {
  return site_findings_of(project, given).back();
}

std::string reason_with(const std::string& key, const Settings::Value& value) {
  Settings given = site_settings();
  given.set(key, value);
  const Finding finding = programme_of(numbered_project(2), given);
  CHECK(finding.verdict == Verdict::not_assessed);
  return finding.reason;
}

/// Without each setting whose name begins with `prefix`.
std::string reason_without(const std::string& prefix) {
  const Settings all = site_settings();
  Settings given;
  for (const auto& [key, value] : all.all()) {
    if (key.rfind(prefix, 0) != 0) given.set(key, value);
  }
  const Finding finding = programme_of(numbered_project(2), given);
  CHECK(finding.verdict == Verdict::not_assessed);
  return finding.reason;
}

std::string date(const Finding& finding, std::size_t day) {
  return std::get<std::string>(table_of(finding, "By working day").rows.at(day)[0]);
}

}  // namespace

TEST_CASE("every panel has one day and no day more crane hours than the cranes have") {
  // 0.288 h each; 20 of them are 5.76 h, 21 are more than the day of 6 h.
  const Finding finding = programme_of(numbered_project(50));
  REQUIRE(finding.verdict == Verdict::information);
  CHECK(std::get<double>(finding.value) == 3.0);
  double panels = 0.0;
  std::string marks;
  for (const auto& row : table_of(finding, "By working day").rows) {
    panels += std::get<double>(row[2]);
    CHECK(std::get<double>(row[4]) <= 6.0);
  }
  for (const auto& row : table_of(finding, "Panels by working day").rows) {
    marks += std::get<std::string>(row[4]) + ", ";
  }
  CHECK(panels == 50.0);
  for (const Panel& panel : numbered_project(50).panels) {
    const std::size_t first = marks.find(panel.mark + ",");
    CHECK(first != std::string::npos);
    CHECK(marks.find(panel.mark + ",", first + 1) == std::string::npos);
  }
}

TEST_CASE("work skips weekends and holidays") {
  const Finding finding = programme_of(numbered_project(99));
  // 6 April 2026 is a Monday and the Tuesday after it a holiday here.
  CHECK(date(finding, 0) == "2026-04-06");
  CHECK(date(finding, 1) == "2026-04-08");
  CHECK(date(finding, 3) == "2026-04-10");
  CHECK(date(finding, 4) == "2026-04-13");
}

TEST_CASE("the effect of one crane fewer and one more is printed") {
  Settings given = site_settings();
  given.set("quantities.cranes", 2.0);
  const Finding finding = programme_of(numbered_project(80), given);
  const auto& rows = table_of(finding, "With fewer and more cranes").rows;
  REQUIRE(rows.size() == 3);
  CHECK(std::get<double>(rows[0][2]) == 4.0);
  CHECK(std::get<double>(rows[1][2]) == 2.0);
  CHECK(std::get<double>(rows[2][2]) == 2.0);
  for (const auto& row : rows) CHECK(std::get<double>(row[3]) <= std::get<double>(row[2]));
  CHECK(table_of(programme_of(numbered_project(80)), "With fewer and more cranes").rows.size() == 2);
}

TEST_CASE("the charts have a bar a storey and a bar a crane and day") {
  Project project = numbered_project(40);
  project.storeys.resize(2);
  project.storeys[1].name = "first floor";
  for (std::size_t i = 0; i < 40; ++i) project.panels[i].storey = i / 20;
  Settings given = site_settings();
  given.set("quantities.cranes", 2.0);
  given.set("quantities.crane_hours_per_day", 3.0);
  const Finding finding = programme_of(project, given);
  REQUIRE(finding.bar_charts.size() == 2);
  CHECK(finding.bar_charts[0].bars.size() == 2);
  const std::vector<Bar>& bars = finding.bar_charts[1].bars;
  // 0.288 h each: ten a crane and day, so twenty a day.
  REQUIRE(bars.size() == 4);
  CHECK(bars[1].name == "2026-04-06, crane 2");
  CHECK(bars[2].name == "2026-04-08, crane 1");
  for (const Bar& bar : bars) CHECK(bar.pieces.size() == 10);
}

TEST_CASE("the chart of the cranes fills each panel by the load that brings it") {
  Settings given = site_settings();
  given.set("structural.transport.payload_kg", 2500.0);
  const std::vector<Finding> findings = site_findings_of(numbered_project(40), given);
  const BarChart& chart = findings.back().bar_charts[1];
  std::vector<double> panels(chart.parts.size(), 0.0);
  for (const Bar& bar : chart.bars) {
    for (const BarPiece& piece : bar.pieces) panels.at(piece.part) += 1.0;
  }
  const auto& loads = table_of(findings.front(), "Loads").rows;
  REQUIRE(loads.size() == panels.size());
  REQUIRE(panels.size() > 1);
  for (std::size_t i = 0; i < loads.size(); ++i) {
    CHECK(chart.parts[i] == "load " + std::to_string(i + 1));
    CHECK(panels[i] == std::get<double>(loads[i][1]));
  }
}

TEST_CASE("storeys and what panels wait for are listed with their days") {
  Project project = numbered_project(40);
  project.storeys.resize(2);
  project.storeys[1].name = "first floor";
  for (std::size_t i = 0; i < 40; ++i) project.panels[i].storey = i / 30;
  project.panels[4].properties.add("Pset_WallCommon", "LoadBearing", {true, "", {}});
  set_after(project.panels[35], "P03; P25");
  const Finding finding = programme_of(project);
  CHECK(table_of(finding, "By storey").rows ==
        std::vector<std::vector<Value>>{{"ground floor", 30.0, 172.8, 8.64, "no panels", "2026-04-06", "2026-04-08"},
                                        {"first floor", 10.0, 57.6, 2.88, "2026-04-06", "2026-04-08", "2026-04-08"}});
  CHECK(table_of(finding, "Panels that wait for others by Panel_Identity.After").rows ==
        std::vector<std::vector<Value>>{{"P36", "P03, P25", "2026-04-08", "2026-04-08"}});
}

TEST_CASE("of many panels that wait the first forty are listed") {
  Project project = numbered_project(50);
  for (std::size_t i = 1; i < 50; ++i) set_after(project.panels[i], project.panels[i - 1].mark);
  const Finding finding = programme_of(project);
  const std::string title = "Panels that wait for others by Panel_Identity.After, the first 40 of 49";
  CHECK(table_of(finding, title).rows.size() == 40);
}

TEST_CASE("settings that cannot be used are named") {
  const std::vector<std::pair<std::string, Settings::Value>> cases{{"quantities.crew.people", 0.0},
                                                                   {"quantities.hours_per_day", -8.0},
                                                                   {"quantities.hours_per_day", 24.5},
                                                                   {"quantities.crane_hours_per_day", 60.0},
                                                                   {"quantities.crane_hours_per_day", 0.0},
                                                                   {"quantities.cranes", 0.0},
                                                                   {"quantities.cranes", -1.0},
                                                                   {"quantities.cranes", 0.5},
                                                                   {"quantities.cranes", 101.0},
                                                                   {"quantities.transport.lead_working_days", -1.0},
                                                                   {"quantities.transport.lead_working_days", 0.5},
                                                                   {"quantities.transport.lead_working_days", 61.0},
                                                                   {"quantities.start_date", true},
                                                                   {"quantities.start_date", std::string("2026-02-30")},
                                                                   {"quantities.start_date", std::string("6 April")}};
  for (const auto& [key, value] : cases) {
    INFO(key);
    CHECK(reason_with(key, value).find("setting '" + key + "'") != std::string::npos);
  }
  CHECK(reason_with("quantities.working_days.0", std::string("Mon")).find("'Mon', which is no day") !=
        std::string::npos);
  CHECK(reason_with("quantities.holidays.0", std::string("May Day")).find("'May Day', which is no date") !=
        std::string::npos);
}

TEST_CASE("the longest day, the most cranes and the longest wait on site can be planned with") {
  for (const auto& [key, value] : {std::pair{"quantities.hours_per_day", 24.0},
                                   {"quantities.crane_hours_per_day", 24.0},
                                   {"quantities.cranes", 100.0},
                                   {"quantities.transport.lead_working_days", 60.0},
                                   {"quantities.transport.lead_working_days", 0.0}}) {
    INFO(key);
    Settings given = site_settings();
    given.set(key, value);
    CHECK(programme_of(numbered_project(2), given).verdict != Verdict::not_assessed);
  }
}

TEST_CASE("without a start date there is no programme and the setting is named") {
  CHECK(reason_without("quantities.start_date") ==
        "setting 'quantities.start_date' is missing: the first day of erection as YYYY-MM-DD");
}

TEST_CASE("without a day of the week there is no programme and the setting is named") {
  CHECK(reason_without("quantities.working_days") ==
        "setting 'quantities.working_days' is missing: a list of days such as \"Monday\"");
}

TEST_CASE("a start on a holiday moves to the next working day and is noted") {
  Settings given = site_settings();
  given.set("quantities.start_date", std::string("2026-04-07"));
  const Finding finding = programme_of(numbered_project(2), given);
  CHECK(date(finding, 0) == "2026-04-08");
  const std::string note = "Setting 'quantities.start_date' is no working day: work begins on the next one.";
  CHECK(std::count(finding.notes.begin(), finding.notes.end(), note) == 1);
  const std::vector<std::string> notes = programme_of(numbered_project(2)).notes;
  CHECK(std::count(notes.begin(), notes.end(), note) == 0);
}

TEST_CASE("panels whose storey or bearing is not known are named") {
  Project project = numbered_project(2);
  for (Panel& panel : project.panels) {
    panel.storey = 0;
    panel.properties.add("Pset_WallCommon", "LoadBearing", {true, "", {}});
  }
  const std::size_t notes = programme_of(project).notes.size();
  project.panels[1].storey.reset();
  project.panels[1].properties = {};
  set_order(project.panels[1], 2);
  const std::vector<std::string> named = programme_of(project).notes;
  REQUIRE(named.size() == notes + 2);
  CHECK(named[notes] == "Taken as of the lowest storey, for the export gives them none: P02.");
  CHECK(named[notes + 1] == "Taken as not load-bearing, for Pset_WallCommon.LoadBearing is missing: P02.");
}

TEST_CASE("a panel that takes longer than a day is named") {
  Project project = numbered_project(2);
  project.panels[1].width_m.value = 60.0;
  CHECK(programme_of(project).reason ==
        "panel 'P02' takes 7.2 h, more than a day of lifting: check the times of a lift and the hours of a day");
}

TEST_CASE("a circle in the order stops the programme too") {
  Project project = numbered_project(1);
  project.panels.push_back(cassette("P02"));
  set_after(project.panels[1], "P02");
  CHECK(programme_of(project).reason.find("goes in a circle: 'P02' after 'P02'") != std::string::npos);
}

TEST_CASE("the order of panels in the project changes nothing") {
  Project project = numbered_project(40);
  const Finding forwards = programme_of(project);
  std::reverse(project.panels.begin(), project.panels.end());
  const Finding backwards = programme_of(project);
  CHECK(table_of(forwards, "By working day").rows == table_of(backwards, "By working day").rows);
}
