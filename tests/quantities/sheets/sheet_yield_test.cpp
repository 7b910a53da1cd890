// Sheets and slabs of all panels, and what the finding says when settings are missing.
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "plugins/quantities/checks.h"
#include "plugins/quantities/sheets/sheet_pieces.h"
#include "tests/quantities/cassette.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

Settings with_sheets() {
  Settings result = settings();
  result.set("quantities.sheet_sizes_m.0.material", std::string("particle board"));
  result.set("quantities.sheet_sizes_m.0.width", 1.2);
  result.set("quantities.sheet_sizes_m.0.length", 2.4);
  return result;
}

Panel in_order(const std::string& mark, double order) {
  Panel panel = cassette(mark);
  panel.properties.add("Panel_Identity", "ErectionOrder", {order, "", {}});
  return panel;
}

std::string text(const Table& table, std::size_t row, std::size_t column) {
  return std::get<std::string>(table.rows.at(row).at(column));
}

}  // namespace

TEST_CASE("sheets that fit exactly are used whole") {
  const Finding found = sheet_yield(project_of({cassette("P1"), cassette("P2")}), with_sheets());
  CHECK(std::get<double>(found.value) == Approx(100.0).epsilon(1e-12));
  CHECK(step(found, "n") == 4.0);
  CHECK(step(found, "A_s") == Approx(4 * 2.88).epsilon(1e-12));
  CHECK(step(found, "gap") == Approx(0.0).margin(1e-9));
}

TEST_CASE("offcuts serve the other panels of a batch and no other batch") {
  std::vector<Panel> panels{in_order("P1", 1), in_order("P2", 2)};
  for (Panel& panel : panels) {
    panel.parts = {box(PartKind::sheet, "half", 1, {0.0, 0.0, 0.0}, {0.598, 0.012, 2.4})};
  }
  Settings together = with_sheets();
  together.set("quantities.panels_per_batch", 2.0);
  CHECK(step(sheet_yield(project_of(panels), together), "A_s") == Approx(2.88).epsilon(1e-12));
  together.set("quantities.panels_per_batch", 1.0);
  CHECK(step(sheet_yield(project_of(panels), together), "A_s") == Approx(2 * 2.88).epsilon(1e-12));
}

TEST_CASE("the table gives the net area over the area bought") {
  Panel panel = cassette("P1");
  panel.parts = {box(PartKind::sheet, "part of a sheet", 1, {0.0, 0.0, 0.0}, {1.2, 0.012, 1.2})};
  const Finding found = sheet_yield(project_of({panel}), with_sheets());
  REQUIRE(found.tables.front().rows.size() == 1);
  const auto& row = found.tables.front().rows.front();
  CHECK(std::get<double>(row.at(3)) == Approx(1.44).epsilon(1e-12));
  CHECK(std::get<double>(row.at(5)) == Approx(2.88).epsilon(1e-12));
  CHECK(std::get<double>(row.back()) == Approx(50.0).epsilon(1e-12));
}

TEST_CASE("a material without sheets and a piece that fits none are named with what to do") {
  CHECK(sheet_yield(project_of({cassette("P1")}), settings()).reason ==
        "setting 'quantities.sheet_sizes_m' has no sheet of 'particle board': an entry with its material, width and "
        "length");
  Panel large = cassette("P1");
  large.parts = {box(PartKind::sheet, "board", 1, {0.0, 0.0, 0.0}, {1.3, 0.012, 2.4})};
  const Finding found = sheet_yield(project_of({large}), with_sheets());
  CHECK(found.verdict == Verdict::not_assessed);
  CHECK(found.reason ==
        "part 'board' of panel 'P1' (1300 × 2400 mm) fits no sheet of 'particle board'; add a larger one to "
        "'quantities.sheet_sizes_m', let it turn with 'may_turn', or joint the part");
}

TEST_CASE("a sheet of a name that two materials bear is told, not guessed") {
  Project project = project_of({cassette("P1")});
  project.materials[0].name = "particle board";
  CHECK(
      sheet_yield(project, with_sheets()).reason ==
      "setting 'quantities.sheet_sizes_m.0.material' is 'particle board', the name of 2 materials: give each a name of "
      "its own in the export");
}

TEST_CASE("of many parts that no stock holds five are named and the rest counted") {
  Panel panel = cassette("P1");
  panel.parts.clear();
  for (int i = 1; i <= 8; ++i) {
    panel.parts.push_back(box(PartKind::stud, "stud " + std::to_string(i), 0, {0.0, 0.0, 0.0}, {0.045, 0.145, 20.0}));
    panel.parts.push_back(box(PartKind::sheet, "board " + std::to_string(i), 1, {0.0, 0.0, 0.0}, {1.3, 0.012, 2.4}));
  }
  const std::string bars = stock_yield(project_of({panel}), settings()).reason;
  CHECK(bars.find("'stud 5'") != std::string::npos);
  CHECK(bars.find("'stud 6'") == std::string::npos);
  CHECK_THAT(bars, Catch::Matchers::EndsWith("3 more parts are longer than any stock length, all in the table 'Parts "
                                             "longer than any stock length'"));
  const std::string sheets = sheet_yield(project_of({panel}), with_sheets()).reason;
  CHECK(sheets.find("'board 6'") == std::string::npos);
  CHECK_THAT(sheets, Catch::Matchers::EndsWith("3 more parts fit no sheet of 'particle board', all in the table 'Parts "
                                               "that fit no sheet of 'particle board', 12.0 mm'"));
}

TEST_CASE("settings of sheets that cannot be used are named") {
  const Project project = project_of({cassette("P1")});
  Settings zero = with_sheets();
  zero.set("quantities.sheet_sizes_m.0.width", 0.0);
  CHECK_THAT(sheet_yield(project, zero).reason,
             Catch::Matchers::StartsWith("sheet across the grain, particle board must be greater than zero (setting "
                                         "'quantities.sheet_sizes_m.0.width')"));
  Settings negative = with_sheets();
  negative.set("quantities.saw_kerf_m", -0.004);
  CHECK(sheet_yield(project, negative).reason == "setting 'quantities.saw_kerf_m' must not be negative");
  Settings smaller = with_sheets();
  smaller.set("quantities.insulation_oversize_m", -0.005);
  CHECK(sheet_yield(project, smaller).reason == "setting 'quantities.insulation_oversize_m' must not be negative");
  Settings half = with_sheets();
  half.set("quantities.sheet_layouts_listed", 1.5);
  CHECK(sheet_yield(project, half).reason ==
        "setting 'quantities.sheet_layouts_listed' must be a whole number of at least 0");
  Settings none;
  CHECK_THAT(sheet_yield(project, none).reason,
             Catch::Matchers::StartsWith("setting 'quantities.saw_kerf_m' is missing; setting "
                                         "'quantities.sheet_sizes_m' has no sheet of 'particle board'"));
}

TEST_CASE("insulation is cut larger than its space but no larger than the slab") {
  Panel panel = cassette("P1");
  panel.parts = {box(PartKind::insulation, "slab", 1, {0.0, 0.0, 0.0}, {0.555, 0.14, 1.2})};
  Settings slabs = settings();
  slabs.set("quantities.sheet_sizes_m.0.material", std::string("particle board"));
  slabs.set("quantities.sheet_sizes_m.0.width", 0.6);
  slabs.set("quantities.sheet_sizes_m.0.length", 1.2);
  slabs.set("quantities.insulation_oversize_m", 0.01);
  const Finding found = sheet_yield(project_of({panel}), slabs);
  REQUIRE(found.verdict == Verdict::information);
  CHECK(text(found.tables.at(3), 0, 4) == "1 of 565 × 1200");
  const Finding list = cutting_list(panel, project_of({panel}), slabs);
  CHECK(std::get<double>(list.tables.at(0).rows.at(0).at(4)) == 565.0);
  CHECK(std::get<double>(list.tables.at(0).rows.at(0).at(5)) == 1200.0);
}

TEST_CASE("only insulation is larger than its space") {
  const SheetRules rules{{{600'000, 1'200'000}}, 0, false};
  CHECK(cut_size({555'000, 1'000'000}, PartKind::insulation, 10'000, rules).length == 1'010'000);
  CHECK(cut_size({605'000, 1'000'000}, PartKind::sheet, 10'000, rules).width == 605'000);
}

TEST_CASE("sheets that are not drawn tell how many each batch cuts") {
  std::vector<Panel> panels{in_order("P1", 1), in_order("P2", 2)};
  for (Panel& panel : panels) panel.parts = {box(PartKind::sheet, "board", 1, {0.0, 0.0, 0.0}, {1.2, 0.012, 2.4})};
  panels[1].parts.push_back(panels[1].parts[0]);
  Settings batches = with_sheets();
  batches.set("quantities.panels_per_batch", 1.0);
  const Finding found = sheet_yield(project_of(panels), batches);
  CHECK(text(found.tables.at(3), 0, 5) == "1: 1; 2: 2");
}
