// The order of work of a panel and its hold points.
#include "plugins/quantities/assembly/assembly.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "plugins/quantities/checks.h"
#include "tests/quantities/cassette.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

std::string text(const Table& table, std::size_t row, std::size_t column) {
  return std::get<std::string>(table.rows.at(row).at(column));
}

}  // namespace

TEST_CASE("the frame comes first, then the tray, its insulation, outside and inside") {
  Panel panel = cassette("P1");
  panel.parts.push_back(box(PartKind::membrane, "outer", 1, {0.0, 0.157, 0.0}, {2.4, 0.001, 2.4}));
  panel.parts.push_back(box(PartKind::insulation, "slab", 1, {0.05, 0.0, 0.05}, {0.5, 0.145, 2.3}));
  panel.parts.push_back(box(PartKind::sheet, "tray", 1, {0.0, -0.012, 0.0}, {2.4, 0.012, 2.4}));
  panel.parts.push_back(box(PartKind::sheet, "lining", 1, {0.0, -0.06, 0.0}, {2.4, 0.012, 2.4}));
  const Project project = project_of({panel});
  std::vector<std::string> first_parts;
  std::vector<std::string> faces;
  for (const Stage& stage : assembly_stages(panel, project)) {
    first_parts.push_back(panel.parts[stage.parts[0]].name);
    faces.push_back(stage.face);
  }
  CHECK(first_parts == std::vector<std::string>{"stud 1", "tray", "slab", "board 1", "outer", "lining"});
  CHECK(faces == std::vector<std::string>{"", "inner", "", "outer", "outer", "inner"});
  CHECK(text(assembly(panel, project, settings()).tables.at(0), 1, 1) == "sheet, inner face");
}

TEST_CASE("a membrane between frame and inner sheet is laid before the sheet") {
  Panel panel = cassette("P1");
  panel.parts.push_back(box(PartKind::insulation, "slab", 1, {0.05, 0.0, 0.05}, {0.5, 0.145, 2.3}));
  panel.parts.push_back(box(PartKind::sheet, "tray", 1, {0.0, -0.0122, 0.0}, {2.4, 0.012, 2.4}));
  panel.parts.push_back(box(PartKind::membrane, "film", 1, {0.0, -0.0002, 0.0}, {2.4, 0.0002, 2.4}));
  panel.parts.push_back(box(PartKind::membrane, "inner film", 1, {0.0, -0.0124, 0.0}, {2.4, 0.0002, 2.4}));
  std::vector<std::string> first_parts;
  for (const Stage& stage : assembly_stages(panel, project_of({panel}))) {
    first_parts.push_back(panel.parts[stage.parts[0]].name);
  }
  CHECK(first_parts == std::vector<std::string>{"stud 1", "film", "tray", "slab", "board 1", "inner film"});
}

TEST_CASE("a frame of two materials names both") {
  Panel panel = cassette("P1");
  panel.parts.push_back(box(PartKind::post, "post", 1, {1.0, 0.0, 0.045}, {0.06, 0.145, 2.31}));
  const Finding found = assembly(panel, project_of({panel}), settings());
  CHECK(text(found.tables.at(0), 0, 2) == "particle board; softwood");
}

TEST_CASE("the tape of a membrane follows its edges, its openings and its joints once") {
  Panel panel = cassette("P1");
  panel.parts.push_back(box(PartKind::membrane, "left", 1, {0.0, 0.157, 0.0}, {1.2, 0.001, 2.4}));
  panel.parts.push_back(box(PartKind::membrane, "right", 1, {1.2, 0.157, 0.0}, {1.2, 0.001, 2.4}));
  const Finding found = assembly(panel, project_of({panel}), settings());
  REQUIRE(found.steps.size() == 1);
  CHECK(std::get<double>(found.steps[0].value) == Approx(4 * 2.4 + 2.4).epsilon(1e-12));
  CHECK(std::get<double>(found.value) == 11.0);
}

TEST_CASE("diagonals at the hold point are equal within what squareness permits") {
  const Panel panel = cassette("P1");
  const auto permitted = [&](const Settings& chosen) {
    return text(assembly(panel, project_of({panel}), chosen).tables.at(1), 1, 3);
  };
  Settings limits = settings();
  CHECK(permitted(limits) == "not set");
  limits.set("quantities.size_tolerance_m", 0.003);
  CHECK(permitted(limits) == "± 3");
  limits.set("quantities.squareness_tolerance_m", 0.005);
  CHECK(permitted(limits) == "equal within 5");
}
