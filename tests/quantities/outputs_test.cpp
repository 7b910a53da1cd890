// The rows of the tables that outputs.json declares.
#include "plugins/quantities/outputs.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstddef>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "plugins/quantities/checks.h"
#include "tests/quantities/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

/// Names of the columns of a file, in the order of outputs.json.
std::vector<std::string> columns_of(const std::string& file) {
  std::ifstream stream(PANEL_DOSSIER_SOURCE_DIR "/plugins/quantities/outputs.json");
  const std::string json{std::istreambuf_iterator<char>(stream), {}};
  const std::string key = "\"name\": \"";
  const std::size_t begin = json.find("\"file\": \"" + file + "\"");
  const std::size_t end = std::min(json.find("\"file\": ", begin + 1), json.size());
  std::vector<std::string> names;
  for (std::size_t at = json.find(key, begin); at < end; at = json.find(key, at)) {
    at += key.size();
    names.push_back(json.substr(at, json.find('"', at) - at));
  }
  return names;
}

std::vector<PanelFindings> all_findings(const Project& project, const Settings& settings) {
  std::vector<PanelFindings> all;
  for (const Panel& panel : project.panels) all.push_back({&panel, check_panel(panel, project, settings).findings});
  return all;
}

Value cell(const std::string& file, const OutputRow& row, const std::string& column) {
  const std::vector<std::string> names = columns_of(file);
  REQUIRE(row.size() == names.size());
  const auto found = std::find(names.begin(), names.end(), column);
  REQUIRE(found != names.end());
  return row[static_cast<std::size_t>(found - names.begin())];
}

}  // namespace

TEST_CASE("a panel has one row of amounts, and the totals one behind them") {
  const std::string file = "quantities.csv";
  const Project project = sound_project();
  const auto panels = all_findings(project, sound_settings());
  const auto rows = panel_rows(file, project, panels[1]);
  REQUIRE(rows.size() == 1);
  CHECK(cell(file, rows[0], "mark") == Value{"P02"});
  CHECK(cell(file, rows[0], "storey") == Value{"ground floor"});
  CHECK(cell(file, rows[0], "area_m2") == Value{5.76});
  CHECK(cell(file, rows[0], "as_built_size_m") == Value{0.003});
  CHECK(std::get<double>(cell(file, rows[0], "costs")) == Approx(99.93).epsilon(1e-9));
  CHECK(cell(file, rows[0], "currency") == Value{"GBP"});
  CHECK(cell(file, rows[0], "mass_kg") == Value{89.935175});
  CHECK(cell(file, rows[0], "gross_area_m2") == Value{5.76});
  CHECK(cell(file, rows[0], "openings_m2") == Value{0.0});
  CHECK(cell(file, rows[0], "centre_from_left_edge_m") == Value{1.2});
  CHECK(cell(file, rows[0], "centre_from_foot_m") == Value{1.2});

  const auto totals = project_rows(file, project, check_project(project, panels, sound_settings()).findings);
  REQUIRE(totals.size() == 1);
  CHECK(cell(file, totals[0], "global_id") == Value{"TOTAL"});
  CHECK(cell(file, totals[0], "area_m2") == Value{11.52});
  CHECK(cell(file, totals[0], "currency") == Value{"GBP"});
  CHECK(cell(file, totals[0], "as_built_size_m") == Value{});
  CHECK(cell(file, totals[0], "centre_from_foot_m") == Value{});
}

TEST_CASE("what is not assessed leaves its cell empty") {
  const std::string file = "quantities.csv";
  Project project = sound_project();
  project.panels[0].parts[0].material.reset();
  const auto panels = all_findings(project, settings());
  const OutputRow row = panel_rows(file, project, panels[0]).at(0);
  for (const char* column : {"mass_kg", "loads_kN", "costs", "currency", "centre_from_foot_m"}) {
    INFO(column);
    CHECK(cell(file, row, column) == Value{});
  }
  CHECK(cell(file, row, "area_m2") == Value{5.76});
  const auto totals = project_rows(file, project, check_project(project, panels, settings()).findings);
  CHECK(cell(file, totals.at(0), "mass_kg") == Value{});
}

TEST_CASE("a line of the cutting list stands with batch and order of its panel where they are known") {
  const std::string file = "cutting.csv";
  Project project = sound_project();
  state(project.panels[1].properties, "Panel_Identity", "Batch", std::string("W14"));
  project.panels[0].properties = {};
  const auto panels = all_findings(project, sound_settings());
  const auto known = panel_rows(file, project, panels[1]);
  REQUIRE(known.size() == 3);
  CHECK(cell(file, known[0], "batch") == Value{"W14"});
  CHECK(cell(file, known[0], "erection_order") == Value{"2"});
  CHECK(cell(file, known[0], "part_mark") == Value{"ST1"});
  CHECK(cell(file, known[0], "length_mm") == Value{2310.0});
  const OutputRow unknown = panel_rows(file, project, panels[0]).at(0);
  CHECK(cell(file, unknown, "batch") == Value{});
  CHECK(cell(file, unknown, "erection_order") == Value{});

  project.panels[0].parts.clear();
  CHECK(panel_rows(file, project, all_findings(project, sound_settings())[0]).empty());
  CHECK(project_rows(file, Project(), {}).empty());
}

TEST_CASE("deliveries are rows of the project alone, and none when they were not assessed") {
  const std::string file = "deliveries.csv";
  const Project project = sound_project();
  const auto panels = all_findings(project, sound_settings());
  CHECK(panel_rows(file, project, panels[0]).empty());
  const auto rows = project_rows(file, project, check_project(project, panels, sound_settings()).findings);
  REQUIRE(rows.size() == 2);
  CHECK(cell(file, rows[1], "panel") == Value{"P02"});
  CHECK(cell(file, rows[1], "behind_headboard_m") == Value{2.5});
  CHECK(cell(file, rows[1], "erected_on") == Value{"2026-04-06"});
  CHECK(project_rows(file, project, check_project(project, panels, settings()).findings).empty());
}

TEST_CASE("the register of batches has a row for each batch of a material, with its panels") {
  Project project = sound_project();
  project.batches = {{"B1", "softwood", {"rail", "stud"}, {"D-1"}, {0, 1}}, {"B2", "", {}, {}, {1}}};
  const auto rows = project_rows("batches.csv", project, {});
  REQUIRE(rows.size() == 2);
  CHECK(rows[0] == OutputRow{"B1", "softwood", "rail, stud", "D-1", 2.0, "P01 P02"});
  CHECK(rows[1] == OutputRow{"B2", "", "", "", 1.0, "P02"});
}

TEST_CASE("no other table has rows") {
  const Project project = sound_project();
  CHECK(panel_rows("carbon.csv", project, all_findings(project, settings())[0]).empty());
  CHECK(project_rows("carbon.csv", Project(), {}).empty());
}
