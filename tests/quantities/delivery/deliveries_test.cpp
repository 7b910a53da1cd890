#include "plugins/quantities/delivery/deliveries.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "core/api/support/exact_sum.h"
#include "tests/quantities/delivery_site.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

Finding deliveries_of(const Project& project, const Settings& given = site_settings()) {
  return site_findings_of(project, given).front();
}

std::string reason_without(const std::string& key) {
  const Settings all = site_settings();
  Settings given;
  for (const auto& [name, value] : all.all()) {
    if (name != key) given.set(name, value);
  }
  const Finding finding = deliveries_of(numbered_project(2), given);
  CHECK(finding.verdict == Verdict::not_assessed);
  return finding.reason;
}

}  // namespace

TEST_CASE("each panel is in one row of the list and the loads weigh what the project weighs") {
  const Project project = numbered_project(67);
  const Finding finding = deliveries_of(project);
  REQUIRE(finding.verdict == Verdict::information);
  std::set<std::string> marks;
  ExactSum of_panels;
  for (const auto& row : table_of(finding, "Panels by load").rows) {
    CHECK(marks.insert(std::get<std::string>(row[2])).second);
    of_panels.add(std::get<double>(row[7]));
  }
  CHECK(marks.size() == project.panels.size());
  ExactSum of_loads;
  for (const auto& row : table_of(finding, "Loads").rows) of_loads.add(std::get<double>(row[2]));
  ExactSum of_project;
  for (const Panel& panel : project.panels) of_project.add(std::get<double>(mass(panel, project).value));
  CHECK(of_panels.total() == of_project.total());
  CHECK(of_loads.total() == of_project.total());
  CHECK(step(finding, "ΣM") == of_project.total());
  CHECK(step(finding, "N_min") <= std::get<double>(finding.value));
}

TEST_CASE("the sides of the beds weigh what the panels weigh") {
  const Finding finding = deliveries_of(numbered_project(67));
  ExactSum sides;
  for (const auto& row : table_of(finding, "Balance of the panels across the bed and above it").rows) {
    sides.add(std::get<double>(row[2])).add(std::get<double>(row[3]));
  }
  CHECK(sides.total() == step(finding, "ΣM"));
}

TEST_CASE("each panel is listed with its load, place, row, position, edge, mass, day and identity") {
  Project project = numbered_project(3);
  project.panels[2].width_m.value = 2.0;
  project.panels[2].height_m.value = 3.91;
  project.panels[1].storey = 0;
  const Finding finding = deliveries_of(project);
  REQUIRE(finding.verdict == Verdict::information);
  const Table& table = table_of(finding, "Panels by load");
  const std::vector<std::string> names{"load",      "place", "panel",      "storey",   "row", "behind headboard",
                                       "stands on", "mass",  "erected on", "global id"};
  REQUIRE(table.columns.size() == names.size());
  for (std::size_t i = 0; i < names.size(); ++i) CHECK(table.columns[i].name == names[i]);
  const double mass_kg = std::get<double>(mass(project.panels[1], project).value);
  const std::vector<Value> second{1.0, 2.0, "P02", "ground floor", 1.0, 2.5, "foot", mass_kg, "2026-04-06", "id-P02"};
  for (std::size_t i = 0; i < second.size(); ++i) {
    INFO(names[i]);
    CHECK(table.rows[1][i] == second[i]);
  }
  CHECK(std::get<std::string>(table.rows[2][6]) == "left edge");
}

TEST_CASE("panels on their left edge are named, for somebody has to turn them up") {
  Project project = numbered_project(2);
  const std::string turned = "P02. Each must be turned up before it is lifted into place; see structural.turning_up.";
  const auto notes_with = [&turned](const Finding& finding) {
    return std::count_if(finding.notes.begin(), finding.notes.end(),
                         [&turned](const std::string& note) { return note.find(turned) != std::string::npos; });
  };
  CHECK(notes_with(deliveries_of(project)) == 0);
  project.panels[1].height_m.value = 3.95;
  CHECK(notes_with(deliveries_of(project)) == 1);
}

TEST_CASE("loads whose sides differ by more than the settings allow are named") {
  Project project = numbered_project(2);
  project.panels[1].width_m.value = 11.2;
  project.panels[1].thickness_m.value = 0.314;
  Settings given = site_settings();
  // The second panel begins a row of its own, twice as thick: of 0.571 m of rows the middle lies 0.0285 m inside it.
  const auto note_with = [&](double limit) {
    given.set("quantities.transport.side_balance_limit", limit);
    const Finding finding = deliveries_of(project, given);
    REQUIRE(finding.verdict == Verdict::information);
    return finding.notes.at(2);
  };
  CHECK(note_with(0.95) == "On every load the sides of the bed differ by at most 95.0 % of the mass of its panels.");
  CHECK(note_with(0.05).find("differ by more than 5.0 % of the mass of the panels on load 1: move") !=
        std::string::npos);
  given.set("quantities.transport.side_balance_limit", 1.1);
  CHECK(deliveries_of(project, given).reason ==
        "setting 'quantities.transport.side_balance_limit' must be a share above 0 and up to 1");
}

TEST_CASE("each load has two pictures up to the eighth and each storey a plan") {
  Project project = numbered_project(40);
  project.storeys.resize(2);
  for (std::size_t i = 0; i < 40; ++i) project.panels[i].storey = i / 20;
  Settings given = site_settings();
  given.set("structural.transport.payload_kg", 1900.0);
  const Finding finding = deliveries_of(project, given);
  REQUIRE(std::get<double>(finding.value) > 8.0);
  CHECK(finding.drawings.size() == 2 * 8 + 2);
}

TEST_CASE("every row of a load is drawn with every mark and place") {
  const Finding finding = deliveries_of(numbered_project(24));
  const auto rows = static_cast<std::size_t>(
      std::get<double>(table_of(finding, "Balance of the panels across the bed and above it").rows[0][1]));
  REQUIRE(rows > 1);
  const Drawing& views = finding.drawings.front();
  const auto has_text = [&views](const std::string& text) {
    return std::any_of(views.texts.begin(), views.texts.end(),
                       [&text](const DrawnText& drawn) { return drawn.text.rfind(text, 0) == 0; });
  };
  for (std::size_t row = 1; row <= rows; ++row) CHECK(has_text("row " + std::to_string(row)));
  std::set<std::string> marks;
  for (const DrawnPolygon& polygon : views.polygons) marks.insert(polygon.label);
  for (const auto& row : table_of(finding, "Panels by load").rows) {
    if (std::get<double>(row[0]) > 1.0) break;
    CHECK(marks.count(std::get<std::string>(row[2])) == 1);
    CHECK(has_text(std::to_string(static_cast<int>(std::get<double>(row[1])))));
  }
}

TEST_CASE("from above a panel too short for its mark has its place alone") {
  Project project = numbered_project(2);
  project.panels[1].mark = "Block A, ground floor, 02";
  const Finding finding = deliveries_of(project);
  const std::vector<DrawnText>& texts = finding.drawings.at(1).texts;
  CHECK(texts.at(0).text == "1 P01");
  CHECK(texts.at(1).text == "2");
}

TEST_CASE("the plan of a storey has a legend with a hatch and a colour of its own for each load") {
  Settings given = site_settings();
  given.set("structural.transport.payload_kg", 1700.0);
  const Finding finding = deliveries_of(numbered_project(24), given);
  const auto loads = static_cast<std::size_t>(std::get<double>(finding.value));
  REQUIRE(loads > 9);
  const Drawing& plan = finding.drawings.back();
  // Panels first, then the legend's samples in the order of the loads.
  REQUIRE(plan.polygons.size() == 24 + loads);
  std::set<std::pair<Hatch, std::size_t>> fills;
  for (std::size_t i = 0; i < loads; ++i) {
    const DrawnPolygon& sample = plan.polygons[24 + i];
    CHECK(sample.tint > 0);
    fills.emplace(sample.hatch, sample.tint % kTints);
  }
  CHECK(fills.size() == loads);
  CHECK(plan.texts.at(24 + loads - 1).text == "load " + std::to_string(loads));
}

TEST_CASE("a plan names its building where there are several") {
  Project project = numbered_project(2);
  project.panels[0].storey = 0;
  project.panels[1].storey = 0;
  project.storeys[0].building = "Block A";
  CHECK(deliveries_of(project).drawings.back().title == "ground floor: the load that brings each panel");
  project.buildings = {"Block A", "Block B"};
  CHECK(deliveries_of(project).drawings.back().title == "Block A, ground floor: the load that brings each panel");
}

TEST_CASE("every missing setting of the vehicle is named") {
  for (const char* key :
       {"structural.transport.bed_length_m", "structural.transport.deck_height_m",
        "structural.transport.overall_height_m", "structural.transport.payload_kg", "quantities.transport.bed_width_m",
        "quantities.transport.spacer_m", "quantities.transport.rack_base_m", "quantities.transport.rack_kg",
        "quantities.transport.kingpin_m", "quantities.transport.axle_group_m", "quantities.transport.kingpin_limit_kg",
        "quantities.transport.axle_group_limit_kg"}) {
    INFO(key);
    CHECK(reason_without(key).find("setting '" + std::string(key) + "' is missing") != std::string::npos);
  }
}

TEST_CASE("settings that contradict each other are named") {
  const std::map<std::string, std::pair<double, std::string>> cases{
      {"structural.transport.overall_height_m", {1.0, "leaves no height above the deck and the rack"}},
      {"quantities.transport.rack_kg", {24000.0, "leaves nothing of 'structural.transport.payload_kg'"}},
      {"quantities.transport.kingpin_m", {9.35, "must be greater than 'quantities.transport.kingpin_m'"}},
      {"quantities.transport.spacer_m", {-0.1, "must not be negative"}}};
  for (const auto& [key, expected] : cases) {
    Settings given = site_settings();
    given.set(key, expected.first);
    const Finding finding = deliveries_of(numbered_project(2), given);
    INFO(key);
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason.find(expected.second) != std::string::npos);
  }
}

TEST_CASE("settings of the vehicle below zero are named") {
  for (const char* key :
       {"structural.transport.bed_length_m", "structural.transport.deck_height_m",
        "structural.transport.overall_height_m", "structural.transport.payload_kg", "quantities.transport.bed_width_m",
        "quantities.transport.spacer_m", "quantities.transport.rack_base_m", "quantities.transport.rack_kg",
        "quantities.transport.kingpin_m", "quantities.transport.axle_group_m", "quantities.transport.kingpin_limit_kg",
        "quantities.transport.axle_group_limit_kg", "quantities.transport.side_balance_limit"}) {
    INFO(key);
    Settings given = site_settings();
    given.set(key, -1.0);
    const Finding finding = deliveries_of(numbered_project(2), given);
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason.find("setting '" + std::string(key) + "'") != std::string::npos);
  }
}

TEST_CASE("a panel longer than the bed is named") {
  Project project = numbered_project(2);
  project.panels[1].width_m.value = 13.7;
  CHECK(deliveries_of(project).reason ==
        "panel 'P02' is 13.700 m long and the load bed 13.600 m: choose a longer vehicle or divide the panel");
}

TEST_CASE("a panel higher than the route allows is named") {
  Project project = numbered_project(3);
  project.panels[1].width_m.value = 4.2;
  project.panels[1].height_m.value = 4.0;
  const Finding finding = deliveries_of(project);
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason ==
        "panel 'P02' stands 4.150 m high on its rack and the route leaves 4.050 m above the deck: choose a lower "
        "deck, another route or a smaller panel");
}

TEST_CASE("a panel of unknown mass and one of unknown order are named") {
  Project project = numbered_project(2);
  project.panels[0].parts[0].material.reset();
  project.panels.push_back(cassette("P03"));
  const Finding finding = deliveries_of(project);
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason.find("1 panel has no quantities.mass: P01") != std::string::npos);
  CHECK(finding.reason.find("'P03' without place in the order of erection") != std::string::npos);
}

TEST_CASE("loads are listed without days when there is no programme") {
  Settings given = site_settings();
  given.set("quantities.start_date", std::string("soon"));
  const Finding finding = deliveries_of(numbered_project(2), given);
  REQUIRE(finding.verdict == Verdict::information);
  const std::vector<Value>& row = table_of(finding, "Loads").rows[0];
  CHECK(std::get<std::string>(row[6]) == "not planned");
  CHECK(std::get<std::string>(row[7]) == "not planned");
}

TEST_CASE("a panel without thickness is named") {
  Project project = numbered_project(2);
  project.panels[1].thickness_m.value = 0.0;
  CHECK(deliveries_of(project).reason == "panel 'P02' has no width, height or thickness: state all three");
}
