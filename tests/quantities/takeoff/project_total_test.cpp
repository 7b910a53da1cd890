// Totals of the project.
#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/api/support/exact_sum.h"
#include "core/api/support/take_off.h"
#include "plugins/quantities/checks.h"
#include "tests/quantities/cassette.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

std::vector<PanelFindings> check_panels(const Project& project) {
  std::vector<PanelFindings> all;
  for (const Panel& panel : project.panels) {
    all.push_back({&panel,
                   {area(panel, settings()), mass(panel, project), centre_of_gravity(panel, project),
                    take_off_measures(panel, project, settings()), cutting_list(panel, project, settings()),
                    fixings(panel, project), loads(panel, project), erection_time(panel, settings())}});
  }
  return all;
}

const Finding& find(const std::vector<Finding>& findings, const std::string& check) {
  const auto found =
      std::find_if(findings.begin(), findings.end(), [&](const Finding& finding) { return finding.check == check; });
  if (found == findings.end()) throw std::runtime_error("no finding " + check);
  return *found;
}

double value(const std::vector<Finding>& findings, const std::string& check) {
  return std::get<double>(find(findings, check).value);
}

const std::vector<std::string> kAdded{"quantities.area",    "quantities.mass",  "quantities.cutting_list",
                                      "quantities.fixings", "quantities.loads", "quantities.erection_time",
                                      "quantities.take_off"};

/// Panels of sizes that are not exact in binary, on two storeys and of three types.
Project random_project(unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> size(0.7, 4.5);
  std::vector<Panel> panels;
  for (int i = 0; i < 60; ++i) {
    Panel panel = cassette("P" + std::to_string(i));
    panel.width_m.value = size(random);
    panel.height_m.value = size(random);
    panel.type = "type " + std::to_string(i % 3);
    if (i % 2 == 0) panel.storey = 0;
    for (int k = 0; k < 5; ++k) {
      panel.parts.push_back(box(PartKind::blocking, "blocking", 0, {0.0, 0.0, 0.0}, {size(random), 0.145, 0.045}));
    }
    panels.push_back(std::move(panel));
  }
  return project_of(std::move(panels));
}

/// The numbers of all tables, row by row.
std::vector<double> numbers_of(const Finding& finding) {
  std::vector<double> numbers;
  for (const Table& table : finding.tables) {
    for (const auto& row : table.rows) {
      for (const Value& cell : row) {
        if (const double* number = std::get_if<double>(&cell)) numbers.push_back(*number);
      }
    }
  }
  std::sort(numbers.begin(), numbers.end());
  return numbers;
}

}  // namespace

TEST_CASE("items, panels and project agree to the last digit") {
  const Project project = random_project(7);
  const auto panels = check_panels(project);
  const auto totals = check_project(project, panels, settings()).findings;
  for (const std::string& check : kAdded) {
    INFO(check);
    ExactSum of_panels;
    for (const PanelFindings& panel : panels) of_panels.add(value(panel.findings, check));
    CHECK(value(totals, check) == of_panels.total());
    ExactSum of_groups;
    for (const auto& row : find(totals, check).tables.at(0).rows) of_groups.add(std::get<double>(row[3]));
    CHECK(value(totals, check) == of_groups.total());
  }
  ExactSum of_items;
  for (const Panel& panel : project.panels) {
    for (const TakeOffItem& item : take_off(panel, project).items) of_items.add(*item.mass_kg);
  }
  CHECK(value(totals, "quantities.mass") == of_items.total());
  ExactSum of_materials;
  for (const auto& row : find(totals, "quantities.mass").tables.at(1).rows) of_materials.add(std::get<double>(row[3]));
  CHECK(value(totals, "quantities.mass") == of_materials.total());
}

TEST_CASE("totals do not depend on the order of panels") {
  Project project = random_project(8);
  const auto forwards = check_project(project, check_panels(project), settings()).findings;
  std::reverse(project.panels.begin(), project.panels.end());
  const auto backwards = check_project(project, check_panels(project), settings()).findings;
  for (const std::string& check : kAdded) CHECK(value(forwards, check) == value(backwards, check));
}

TEST_CASE("project findings have no panel and the ids of their panels") {
  const Project project = project_of({cassette("P1")});
  const auto totals = check_project(project, check_panels(project), settings()).findings;
  for (const char* check : {"quantities.stock_yield", "quantities.sheet_yield"}) CHECK_NOTHROW(find(totals, check));
  for (const Finding& finding : totals) CHECK(finding.panel.empty());
  for (const std::string& check : kAdded) CHECK(find(totals, check).verdict == Verdict::information);
}

TEST_CASE("a total is not assessed when one panel is not, and names it") {
  Project project = project_of({cassette("P1"), cassette("P2"), cassette("P3")});
  project.panels[1].parts[0].material.reset();
  const auto totals = check_project(project, check_panels(project), settings()).findings;
  CHECK(find(totals, "quantities.mass").verdict == Verdict::not_assessed);
  CHECK(find(totals, "quantities.mass").reason ==
        "not assessed for 1 of 3 panels: 'P2'; see each panel for what is missing");
  CHECK(find(totals, "quantities.area").verdict == Verdict::information);
}

TEST_CASE("of panels without a value ten are named, and that there are more is said from the eleventh on") {
  const auto reason_of = [](int count) {
    std::vector<Panel> panels;
    for (int i = 1; i <= count; ++i) {
      panels.push_back(cassette("P" + std::to_string(i)));
      panels.back().parts[0].material.reset();
    }
    const Project project = project_of(panels);
    return find(check_project(project, check_panels(project), settings()).findings, "quantities.mass").reason;
  };
  const std::string all = "'P1', 'P2', 'P3', 'P4', 'P5', 'P6', 'P7', 'P8', 'P9', 'P10'";
  CHECK(reason_of(10) == "not assessed for 10 of 10 panels: " + all + "; see each panel for what is missing");
  CHECK(reason_of(11) == "not assessed for 11 of 11 panels: " + all + " and more; see each panel for what is missing");
}

TEST_CASE("a project without panels has no totals") {
  for (const Finding& finding : check_project(project_of({}), {}, settings()).findings) {
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK_FALSE(finding.reason.empty());
  }
}

TEST_CASE("storeys come in the project's order and panels without one last") {
  Project project = project_of({cassette("P1"), cassette("P2")});
  project.panels[1].storey = 0;
  const auto totals = check_project(project, check_panels(project), settings()).findings;
  const auto& rows = find(totals, "quantities.area").tables.at(0).rows;
  REQUIRE(rows.size() == 2);
  CHECK(std::get<std::string>(rows[0][0]) == "ground floor");
  CHECK(std::get<std::string>(rows[1][0]) == "no storey");
}

TEST_CASE("fixings of all panels are merged by type") {
  Project project = project_of({cassette("P1"), cassette("P2")});
  project.panels[1].parts.push_back(screws("6.0 x 120", 10, 0.2));
  const auto totals = check_project(project, check_panels(project), settings()).findings;
  const auto& rows = find(totals, "quantities.fixings").tables.at(1).rows;
  REQUIRE(rows.size() == 2);
  CHECK(std::get<double>(rows[0][2]) == 192.0);
  CHECK(std::get<double>(rows[1][2]) == 10.0);
}

TEST_CASE("materials of one name are not mixed up") {
  Project project = random_project(9);
  project.materials[0].properties.add("Panel_EnvironmentalDeclaration", "WasteRateA5", {0.08, "", {}});
  for (Panel& panel : project.panels) {
    panel.parts.push_back(box(PartKind::membrane, "film", 1, {0.0, 0.157, 0.0}, {2.4, 0.001, 2.4}));
    panel.parts.push_back(box(PartKind::membrane, "film", 2, {0.0, 0.158, 0.0}, {2.4, 0.001, 2.4}));
    panel.parts.push_back(box(PartKind::stud, "steel stud", 2, {1.0, 0.0, kStud_m}, {kStud_m, kDepth_m, 2.31}));
  }
  Project renamed = project;
  for (Material& material : renamed.materials) material.name = "material";
  const auto same = [](const CheckOutcome& one, const CheckOutcome& other) {
    REQUIRE(one.findings.size() == other.findings.size());
    for (std::size_t i = 0; i < one.findings.size(); ++i) {
      const Finding& a = one.findings[i];
      const Finding& b = other.findings[i];
      INFO(a.check);
      CHECK(a.verdict == b.verdict);
      CHECK(a.value == b.value);
      CHECK(numbers_of(a) == numbers_of(b));
    }
  };
  const auto panels = check_panels(project);
  same(check_panel(project.panels[0], project, settings()), check_panel(renamed.panels[0], renamed, settings()));
  same(check_project(project, panels, settings()), check_project(renamed, check_panels(renamed), settings()));
  const auto totals = check_project(renamed, check_panels(renamed), settings()).findings;
  const auto& rows = find(totals, "quantities.mass").tables.at(1).rows;
  REQUIRE(rows.size() == 3);
  CHECK(std::get<std::string>(rows[1][0]) == "material (2 of 3 of this name)");
}
