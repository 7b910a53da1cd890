#include "plugins/quantities/cutting/cut_parts.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "tests/quantities/cassette.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

CutParts cut(const Part& part) {
  Panel panel;
  panel.parts = {part};
  return cut_parts(panel);
}

Part stud() {
  return box(PartKind::stud, "stud", 0, {0.0, 0.0, 0.0}, {0.045, 0.145, 2.4});
}

void check_size(const CutParts& found, Micrometres thickness, Micrometres width, Micrometres length) {
  REQUIRE(found.parts.size() == 1);
  CHECK(found.parts[0].thickness == thickness);
  CHECK(found.parts[0].width == width);
  CHECK(found.parts[0].length == length);
}

}  // namespace

TEST_CASE("a stud extruded along its axis has its section and length") {
  check_size(cut(stud()), 45000, 145000, 2400000);
  CHECK(cut(stud()).parts[0].rectangular);
}

TEST_CASE("a rail lying along the panel has the same section as a stud") {
  check_size(cut(box(PartKind::rail, "rail", 0, {0.0, 0.0, 0.0}, {2.4, 0.145, 0.045})), 45000, 145000, 2400000);
}

TEST_CASE("blocking shorter than its own depth keeps its section") {
  Part blocking = box(PartKind::blocking, "blocking", 0, {0.0, 0.0, 0.0}, {0.055, 0.22, 0.045});
  check_size(cut(blocking), 45000, 220000, 55000);
  blocking.length_m = Sourced<double>{0.22, {}};  // the longest edge
  check_size(cut(blocking), 45000, 220000, 55000);
}

TEST_CASE("a short cripple stud keeps its section") {
  check_size(cut(box(PartKind::stud, "stud", 0, {0.0, 0.0, 0.0}, {0.045, 0.145, 0.1})), 45000, 145000, 100000);
}

TEST_CASE("a strip of insulation narrower than its thickness keeps its thickness") {
  check_size(cut(box(PartKind::insulation, "strip", 1, {0.0, 0.0, 0.0}, {0.055, 0.22, 1.2})), 220000, 55000, 1200000);
}

TEST_CASE("a batten, which runs either way, has the length the export states or its longest edge") {
  Part batten = box(PartKind::batten, "batten", 0, {0.0, 0.0, 0.0}, {0.03, 0.038, 0.045});
  check_size(cut(batten), 30000, 38000, 45000);
  batten.length_m = Sourced<double>{0.03, {}};
  check_size(cut(batten), 38000, 45000, 30000);
}

TEST_CASE("a part with a box alone has the sizes of its box") {
  Part part = stud();
  part.solid.reset();
  check_size(cut(part), 45000, 145000, 2400000);
}

TEST_CASE("a brace turned in the elevation keeps its own section and length") {
  const double c = std::cos(0.7);
  const double s = std::sin(0.7);
  Part brace = stud();
  brace.solid =
      Extrusion{{{0.0, 0.0}, {2.0 * c, 2.0 * s}, {2.0 * c - 0.09 * s, 2.0 * s + 0.09 * c}, {-0.09 * s, 0.09 * c}},
                {},
                {0.0, 0.0, 1.0},
                0.045};
  check_size(cut(brace), 45000, 90000, 2000000);
  CHECK(cut(brace).parts[0].rectangular);
}

TEST_CASE("a mitred member is shaped and has the blank it is cut from") {
  Part mitred = stud();
  mitred.solid = Extrusion{{{0.0, 0.0}, {2.4, 0.0}, {2.255, 0.145}, {0.0, 0.145}}, {}, {0.0, 0.0, 1.0}, 0.045};
  check_size(cut(mitred), 45000, 145000, 2400000);
  CHECK_FALSE(cut(mitred).parts[0].rectangular);
}

TEST_CASE("a part whose net volume is less than its blank is shaped though its solid is not") {
  Part sheet = box(PartKind::sheet, "sheet", 1, {0.0, 0.0, 0.0}, {1.2, 0.012, 2.4});
  CHECK(cut(sheet).parts.at(0).rectangular);
  sheet.volume_m3->value -= 0.012 * 0.05 * 0.05;
  CHECK_FALSE(cut(sheet).parts.at(0).rectangular);
}

TEST_CASE("a part without shape is named") {
  Part part = stud();
  part.solid.reset();
  part.bounds.reset();
  const CutParts found = cut(part);
  CHECK(found.parts.empty());
  CHECK(found.missing == std::vector<std::string>{"part 'stud' has no shape, so its section is not known"});
}

TEST_CASE("a stated length that no edge has is named, not chosen") {
  Part part = stud();
  part.length_m = Sourced<double>{2.3, {}};
  CHECK(cut(part).missing ==
        std::vector<std::string>{"part 'stud' states a length that no edge of its shape has; mend either"});
}

TEST_CASE("a part of zero size is named") {
  CHECK(cut(box(PartKind::stud, "stud", 0, {0.0, 0.0, 0.0}, {0.0, 0.145, 2.4})).missing ==
        std::vector<std::string>{"part 'stud' has a size of zero"});
}

TEST_CASE("cladding is cut as a sheet is") {
  const CutParts found = cut(box(PartKind::cladding, "boards", 0, {0.0, 0.0, 0.0}, {1.0, 0.02, 1.2}));
  REQUIRE(found.parts.size() == 1);
  CHECK(millimetres(found.parts[0].thickness) == 20.0);
  CHECK(millimetres(found.parts[0].width) == 1000.0);
  CHECK(millimetres(found.parts[0].length) == 1200.0);
}

TEST_CASE("fasteners are not cut here") {
  Panel panel;
  panel.parts = {screws("4 x 50", 9, 0.1)};
  CHECK(cut_parts(panel).parts.empty());
  CHECK(cut_parts(panel).missing.empty());
}

TEST_CASE("every whole millimetre survives metres and back") {
  for (int mm = 1; mm <= 25000; ++mm) REQUIRE(millimetres(micrometres(mm / 1000.0)) == mm);
}

TEST_CASE("any box, however placed and whichever way extruded, gives its own three sizes") {
  std::mt19937 random(3);
  std::uniform_int_distribution<int> size_mm(10, 6000);
  std::uniform_real_distribution<double> place(-20.0, 20.0);
  for (int i = 0; i < 500; ++i) {
    const Micrometres sizes[3] = {size_mm(random) * 1000, size_mm(random) * 1000, size_mm(random) * 1000};
    const Part part = box(PartKind::sheet, "sheet", 1, {place(random), place(random), place(random)},
                          {metres(sizes[0]), metres(sizes[1]), metres(sizes[2])});
    const Micrometres through_panel = sizes[1];
    const auto [shorter, longer] = std::minmax(sizes[0], sizes[2]);
    const CutParts found = cut(part);
    REQUIRE(found.parts.size() == 1);
    REQUIRE(found.parts[0].thickness == through_panel);
    REQUIRE(found.parts[0].width == shorter);
    REQUIRE(found.parts[0].length == longer);
    REQUIRE(found.parts[0].rectangular);
  }
}
