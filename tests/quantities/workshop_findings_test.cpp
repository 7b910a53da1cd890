// Sheets, take-off, assembly and as-built sizes as findings, and what they say when data is missing.
#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "plugins/quantities/checks.h"
#include "plugins/quantities/programme/assembly_stages.h"
#include "plugins/quantities/programme/production.h"
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
  CHECK_THAT(bars, Catch::Matchers::EndsWith("3 more parts are longer than any stock length"));
  const std::string sheets = sheet_yield(project_of({panel}), with_sheets()).reason;
  CHECK(sheets.find("'board 6'") == std::string::npos);
  CHECK_THAT(sheets, Catch::Matchers::EndsWith("3 more parts fit no sheet of 'particle board'"));
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

TEST_CASE("a bar's defects are cut away before it is used") {
  Panel panel = cassette("P1");
  panel.parts = {box(PartKind::stud, "stud", 0, {0.0, 0.0, 0.0}, {0.045, 0.145, 4.79})};
  Settings defects = settings();
  CHECK(step(stock_yield(project_of({panel}), defects), "ΣL") == 4.8);
  defects.set("quantities.stock_defect_allowance_m", 0.02);
  CHECK(step(stock_yield(project_of({panel}), defects), "ΣL") == 6.0);
  defects.set("quantities.stock_defect_allowance_m", 4.8);
  CHECK(stock_yield(project_of({panel}), defects).reason ==
        "setting 'quantities.stock_defect_allowance_m' must be at least 0 and less than every stock length");
}

TEST_CASE("the gross measure leaves small openings in, layer by layer") {
  Panel panel = cassette("P1");
  panel.openings.push_back({});
  panel.openings[0].x_max_m = 0.5;
  panel.openings[0].z_max_m = 1.0;
  Settings limit = settings();
  limit.set("quantities.opening_deduction_over_m2", 0.5);
  const auto board = [&](const Settings& chosen) {
    const Finding found = take_off_measures(panel, project_of({panel}), chosen);
    for (const auto& row : found.tables.at(0).rows) {
      if (std::get<std::string>(row[0]) == "particle board") return std::get<double>(row[4]) - std::get<double>(row[3]);
    }
    return -1.0;
  };
  CHECK(board(limit) == Approx(0.5).epsilon(1e-9));
  limit.set("quantities.opening_deduction_over_m2", 0.49);
  CHECK(board(limit) == 0.0);
}

TEST_CASE("the volumes of the take-off add up to the panel's") {
  const Panel panel = cassette("P1");
  const Finding found = take_off_measures(panel, project_of({panel}), settings());
  double sum = 0.0;
  for (const auto& row : found.tables.at(0).rows) sum += std::get<double>(row[5]);
  CHECK(std::get<double>(found.value) == Approx(sum).epsilon(1e-12));
  const double framing_m3 = (5 * 2.31 + 2 * 2.4) * 0.045 * 0.145;
  CHECK(std::get<double>(found.value) == Approx(framing_m3 + 2.4 * 2.4 * 0.012).margin(1e-5));
}

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

TEST_CASE("holes are listed with diameter and distance, and nonsense is refused") {
  Panel panel = cassette("P1");
  panel.parts = {box(PartKind::stud, "stud", 0, {0.0, 0.0, 0.0}, {0.045, 0.145, 2.4})};
  panel.parts[0].properties.add("Panel_Member", "Holes", {std::string("20@300; 20@900;12.5@1200"), "", {}});
  const Finding found = cutting_list(panel, project_of({panel}), settings());
  CHECK(text(found.tables.at(0), 0, 7) == "rectangular, holes 12.5 mm at 1200; 20 mm at 300, 900");
  for (const char* bad : {"20", "20@", "@300", "20@-1", "20@2400", "a@b", "20@300;;"}) {
    Panel wrong = panel;
    wrong.parts[0].properties = {};
    wrong.parts[0].properties.add("Panel_Member", "Holes", {std::string(bad), "", {}});
    INFO(bad);
    CHECK(cutting_list(wrong, project_of({wrong}), settings()).verdict == Verdict::not_assessed);
  }
}

TEST_CASE("an oblique extrusion is cut at the same angle at both ends") {
  Panel panel = cassette("P1");
  Part brace = box(PartKind::stud, "brace", 0, {0.0, 0.0, 0.0}, {0.045, 0.145, 2.0});
  brace.solid->direction = {0.0, 0.5, std::sqrt(0.75)};
  brace.volume_m3 = Sourced<double>{brace.solid->volume_m3(), {}};
  panel.parts = {brace};
  const Finding found = cutting_list(panel, project_of({panel}), settings());
  REQUIRE(found.verdict == Verdict::information);
  CHECK(text(found.tables.at(0), 0, 7) == "ends 60° and 60°");
}

TEST_CASE("batches are stated or counted off in erection order") {
  Settings twelve;
  CHECK(batch_of(in_order("P1", 13), twelve).empty());
  twelve.set("quantities.panels_per_batch", 12.0);
  CHECK(batch_of(in_order("P1", 12), twelve) == "1");
  CHECK(batch_of(in_order("P1", 13), twelve) == "2");
  CHECK(batch_of(cassette("P1"), twelve).empty());
  Panel stated = in_order("P1", 13);
  stated.properties.add("Panel_Identity", "Batch", {std::string("W14"), "", {}});
  CHECK(batch_of(stated, twelve) == "W14");
  CHECK(batch_before("9", "10"));
  CHECK(batch_before("10", "A"));
  CHECK_FALSE(batch_before("10", "9"));
}

TEST_CASE("a material of zero density gives volumes and no mass") {
  Project project = project_of({cassette("P1")});
  project.materials[0] = material("softwood", 0.0);
  CHECK(mass(project.panels[0], project).verdict == Verdict::not_assessed);
  CHECK(take_off_measures(project.panels[0], project, settings()).verdict == Verdict::information);
}
