#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/cut_parts.h"
#include "tests/quantities/cassette.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

std::string text(const std::vector<Value>& row, std::size_t column) {
  return std::get<std::string>(row[column]);
}

double number(const std::vector<Value>& row, std::size_t column) {
  return std::get<double>(row[column]);
}

/// A stud of 45 × 145 × 2400 mm with one end between these corners of its side.
Part mitred(const Vec2& lower, const Vec2& upper) {
  Part part = box(PartKind::stud, "a", 0, {0.0, 0.0, 0.0}, {0.045, 0.145, 2.4});
  part.solid = Extrusion{{{0.0, 0.0}, lower, upper, {0.0, 0.145}}, {}, {0.0, 0.0, 1.0}, 0.045};
  part.volume_m3 = Sourced<double>{part.solid->volume_m3(), {}};
  return part;
}

}  // namespace

TEST_CASE("equal pieces stand on one line with their count and names") {
  const Project project = project_of({cassette("P1")});
  const Finding found = cutting_list(project.panels[0], project, settings());
  CHECK(std::get<double>(found.value) == 9.0);
  CHECK(found.unit == "pieces");
  const auto& rows = found.tables.at(0).rows;
  REQUIRE(rows.size() == 3);
  CHECK(text(rows[0], 0) == "ST1");
  CHECK(text(rows[0], 1) == "stud");
  CHECK(text(rows[0], 2) == "softwood");
  CHECK(number(rows[0], 3) == 45.0);
  CHECK(number(rows[0], 4) == 145.0);
  CHECK(number(rows[0], 5) == 2310.0);
  CHECK(number(rows[0], 6) == 5.0);
  CHECK(text(rows[0], 7) == "rectangular");
  CHECK(text(rows[0], 8) == "stud 1 to 5");
  CHECK(text(rows[1], 0) == "RL1");
  CHECK(text(rows[2], 0) == "SH1");
  CHECK(step(found, "L") == 5 * 2.31 + 2 * 2.4);
}

TEST_CASE("pieces that differ in material, section or length stand apart") {
  Panel panel = cassette("P1");
  panel.parts = {box(PartKind::stud, "a", 0, {0.0, 0.0, 0.0}, {0.045, 0.145, 2.4}),
                 box(PartKind::stud, "b", 1, {0.1, 0.0, 0.0}, {0.045, 0.145, 2.4}),
                 box(PartKind::stud, "c", 0, {0.2, 0.0, 0.0}, {0.06, 0.145, 2.4}),
                 box(PartKind::stud, "d", 0, {0.3, 0.0, 0.0}, {0.045, 0.145, 2.399}),
                 box(PartKind::post, "e", 0, {0.4, 0.0, 0.0}, {0.045, 0.145, 2.4})};
  CHECK(cutting_list(panel, project_of({panel}), settings()).tables.at(0).rows.size() == 5);
}

TEST_CASE("cladding stands in the list under marks of its own") {
  Panel panel = cassette("P1");
  panel.parts = {box(PartKind::cladding, "Cladding 1", 1, {0.0, 0.2, 0.0}, {1.2, 0.008, 2.5})};
  const Finding found = cutting_list(panel, project_of({panel}), settings());
  REQUIRE(found.tables.at(0).rows.size() == 1);
  CHECK(text(found.tables[0].rows[0], 0) == "CL1");
  CHECK(text(found.tables[0].rows[0], 1) == "cladding");
}

TEST_CASE("mitred pieces are one line when their solids are equal") {
  Panel panel = cassette("P1");
  panel.parts = {mitred({2.4, 0.0}, {2.255, 0.145}), mitred({2.4, 0.0}, {2.255, 0.145})};
  const Finding found = cutting_list(panel, project_of({panel}), settings());
  REQUIRE(found.tables.at(0).rows.size() == 1);
  CHECK(number(found.tables[0].rows[0], 6) == 2.0);
  CHECK(text(found.tables[0].rows[0], 7) == "ends 45° and 90°");
}

TEST_CASE("shaped pieces of equal blanks that are not the same are not grouped") {
  Panel panel = cassette("P1");
  panel.parts = {mitred({2.4, 0.0}, {2.255, 0.145}), mitred({2.255, 0.0}, {2.4, 0.145})};
  CHECK(cutting_list(panel, project_of({panel}), settings()).tables.at(0).rows.size() == 2);

  // Notched as well, which the net volume alone tells.
  panel.parts[1] = panel.parts[0];
  panel.parts[1].volume_m3->value -= 1.0e-4;
  CHECK(cutting_list(panel, project_of({panel}), settings()).tables.at(0).rows.size() == 2);

  Part board = box(PartKind::sheet, "board", 1, {0.0, 0.0, 0.0}, {1.2, 0.012, 2.4});
  board.volume_m3->value -= 0.001;
  panel.parts = {board, board};
  CHECK(cutting_list(panel, project_of({panel}), settings()).tables.at(0).rows.size() == 2);
}

TEST_CASE("a list with one unknown piece is not assessed at all") {
  Panel panel = cassette("P1");
  panel.parts[0].solid.reset();
  panel.parts[0].bounds.reset();
  const Finding found = cutting_list(panel, project_of({panel}), settings());
  CHECK(found.verdict == Verdict::not_assessed);
  CHECK(found.reason == "part 'stud 1' has no shape, so its section is not known");
  CHECK(found.tables.empty());
}

TEST_CASE("a panel without parts has no cutting list and says so") {
  Panel panel = cassette("P1");
  panel.parts.clear();
  CHECK(cutting_list(panel, project_of({panel}), settings()).reason ==
        "the export gives no parts to cut in this panel");
}

TEST_CASE("every part stands in the list once and every length is preserved") {
  std::mt19937 random(4);
  std::uniform_int_distribution<int> length_mm(200, 230);  // few lengths, so that many pieces are equal
  Panel panel = cassette("P1");
  panel.parts.clear();
  std::map<double, double> expected;
  for (int i = 0; i < 400; ++i) {
    const int mm = length_mm(random);
    panel.parts.push_back(
        box(PartKind::blocking, "b" + std::to_string(i) + "x", 0, {0.0, 0.0, 0.0}, {mm / 1000.0, 0.145, 0.045}));
    expected[mm] += 1.0;
  }
  const Finding found = cutting_list(panel, project_of({panel}), settings());
  std::map<double, double> listed;
  std::string names;
  double longest_before = 1e9;
  for (const auto& row : found.tables.at(0).rows) {
    CHECK(number(row, 5) < longest_before);
    longest_before = number(row, 5);
    listed[number(row, 5)] += number(row, 6);
    names += "; " + text(row, 8) + ";";
  }
  CHECK(listed == expected);
  for (const Part& part : panel.parts) REQUIRE(names.find(" " + part.name + ";") != std::string::npos);
  CHECK(std::get<double>(found.value) == 400.0);
}

TEST_CASE("holes are listed with diameter and distance, and nonsense is refused") {
  Panel panel = cassette("P1");
  panel.parts = {box(PartKind::stud, "stud", 0, {0.0, 0.0, 0.0}, {0.045, 0.145, 2.4})};
  panel.parts[0].properties.add("Panel_Member", "Holes", {std::string("20@300; 20@900;12.5@1200"), "", {}});
  const Finding found = cutting_list(panel, project_of({panel}), settings());
  CHECK(text(found.tables.at(0).rows.at(0), 7) == "rectangular, holes 12.5 mm at 1200; 20 mm at 300, 900");
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
  CHECK(text(found.tables.at(0).rows.at(0), 7) == "ends 60° and 60°");
}
