// Nesting and its bound against cases whose optimum is known.
#include <catch2/catch.hpp>
#include <vector>

#include "plugins/quantities/sheets/sheet_nesting.h"

using namespace panel_dossier::quantities;

namespace {

std::vector<FlatSize> repeated(const FlatSize& size, std::size_t count) {
  return std::vector<FlatSize>(count, size);
}

}  // namespace

// Closed form: a sheet a·m by b·n holds m·n pieces a by b without waste.
TEST_CASE("sheets that divide evenly are used whole") {
  const SheetRules rules{{{1200, 2400}}, 0, false};
  const auto pieces = repeated({300, 400}, 240);
  CHECK(nest_sheets(pieces, rules).size() == 10);
  CHECK(sheet_area_bound_m2(pieces, rules) == Approx(10 * 1200.0 * 2400.0 * 1e-12).epsilon(1e-12));
}

// Closed form: no sheet holds two pieces larger than half of it both ways, so n pieces need n sheets; by area alone
// about n/4 would do.
TEST_CASE("pieces over half a sheet both ways need a sheet each") {
  const SheetRules rules{{{1000, 1000}}, 0, true};
  const auto pieces = repeated({501, 501}, 20);
  CHECK(nest_sheets(pieces, rules).size() == 20);
  CHECK(sheet_area_bound_m2(pieces, rules) == Approx(20 * 1e-6).epsilon(1e-12));
}

// The pinwheel: four pieces 3 by 2 round a hole of 1 by 1 fill a square of side 5, but no cut from edge to edge parts
// them, so a guillotine needs two sheets. The textbook example of the difference (from memory).
TEST_CASE("the pinwheel is not cut by guillotine") {
  const SheetRules rules{{{5, 5}}, 0, true};
  const auto pieces = repeated({2, 3}, 4);
  CHECK(nest_sheets(pieces, rules).size() == 2);
  CHECK(sheet_area_bound_m2(pieces, rules) <= 25e-12 * (1.0 + 1e-12));
}

// Closed form: thirds and a saw. Three strips of a third fit a sheet without kerf and only two with one.
TEST_CASE("the kerf is counted between pieces and not behind the last") {
  const auto strips = repeated({400, 2400}, 3);
  CHECK(nest_sheets(strips, {{{1200, 2400}}, 0, false}).size() == 1);
  CHECK(nest_sheets(strips, {{{1200, 2400}}, 4, false}).size() == 2);
  CHECK(nest_sheets(strips, {{{1208, 2400}}, 4, false}).size() == 1);
  CHECK(sheet_area_bound_m2(strips, {{{1200, 2400}}, 4, false}) == Approx(2 * 1200.0 * 2400.0 * 1e-12));
}

// Set T1a of the ESICUP collection (JeroenGar/datasets), read in 2026: seventeen pieces that fill a sheet of 200 by 200
// in free packing. An exact search shows that no cuts from edge to edge part them from one sheet, turned or not, and
// that two sheets do; by area one would be enough. Exact.
TEST_CASE("the pieces of T1a need two sheets by guillotine") {
  const std::vector<FlatSize> pieces{{82, 38},  {37, 13}, {81, 22},  {16, 25},  {21, 64}, {29, 55},
                                     {52, 178}, {98, 39}, {102, 37}, {46, 103}, {29, 86}, {10, 37},
                                     {63, 26},  {50, 11}, {13, 40},  {60, 29},  {119, 20}};
  Micrometres area = 0;
  for (const FlatSize& piece : pieces) area += area_of(piece);
  REQUIRE(area == 200 * 200);
  for (const bool may_turn : {false, true}) {
    const SheetRules rules{{{200, 200}}, 0, may_turn};
    CHECK(nest_sheets(pieces, rules).size() == 2);
    CHECK(sheet_area_bound_m2(pieces, rules) <= 2 * 40000e-12);
    CHECK(sheet_area_bound_m2(pieces, rules) >= 40000e-12 * (1.0 - 1e-8));
  }
}
