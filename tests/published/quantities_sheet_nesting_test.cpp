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

// The pinwheel: four pieces 3 by 2 round a hole of 1 by 1 fill a square of side 5, but no cut from edge to edge parts
// them, so a guillotine needs two sheets. The textbook example of the difference (from memory).
TEST_CASE("the pinwheel is not cut by guillotine") {
  const SheetRules rules{{{5, 5}}, 0, true};
  const auto pieces = repeated({2, 3}, 4);
  CHECK(nest_sheets(pieces, rules).size() == 2);
  CHECK(sheet_area_bound_m2(pieces, rules) <= 25e-12 * (1.0 + 1e-12));
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
