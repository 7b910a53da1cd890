#include "plugins/quantities/sheets/sheet_nesting.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <vector>

using namespace panel_dossier::quantities;

namespace {

std::vector<FlatSize> random_flat_pieces(std::mt19937& random, std::size_t count) {
  std::uniform_int_distribution<int> wide(5, 120);
  std::uniform_int_distribution<int> lengthwise(5, 240);
  std::vector<FlatSize> pieces;
  for (std::size_t i = 0; i < count; ++i) pieces.push_back({wide(random) * 10000, lengthwise(random) * 10000});
  return pieces;
}

bool kept_apart(const PlacedPiece& a, const PlacedPiece& b, Micrometres kerf) {
  return a.x + a.size.width + kerf <= b.x || b.x + b.size.width + kerf <= a.x || a.y + a.size.length + kerf <= b.y ||
         b.y + b.size.length + kerf <= a.y;
}

bool as_given(const PlacedPiece& placed, const FlatSize& piece, bool may_turn) {
  const bool upright = placed.size.width == piece.width && placed.size.length == piece.length;
  const bool turned = placed.size.width == piece.length && placed.size.length == piece.width;
  return upright || (may_turn && turned);
}

/// Whether cuts from edge to edge can part the pieces: there is a line that crosses none, and so on for both sides.
bool is_guillotine(std::vector<PlacedPiece> pieces) {
  if (pieces.size() <= 1) return true;
  for (const bool across : {true, false}) {
    const auto low = [across](const PlacedPiece& p) { return across ? p.y : p.x; };
    const auto high = [across](const PlacedPiece& p) { return across ? p.y + p.size.length : p.x + p.size.width; };
    for (const PlacedPiece& candidate : pieces) {
      const Micrometres line = high(candidate);
      const auto crossed = [&](const PlacedPiece& p) { return low(p) < line && high(p) > line; };
      if (std::any_of(pieces.begin(), pieces.end(), crossed)) continue;
      std::vector<PlacedPiece> below;
      std::vector<PlacedPiece> above;
      for (const PlacedPiece& p : pieces) (high(p) <= line ? below : above).push_back(p);
      if (above.empty()) continue;
      return is_guillotine(below) && is_guillotine(above);
    }
  }
  return false;
}

void check_sheets(const std::vector<CutSheet>& sheets, const std::vector<FlatSize>& pieces, const SheetRules& rules) {
  std::vector<int> times(pieces.size(), 0);
  for (const CutSheet& cut : sheets) {
    const auto is_sheet = [&cut](const FlatSize& size) {
      return size.width == cut.sheet.width && size.length == cut.sheet.length;
    };
    REQUIRE(std::count_if(rules.sizes.begin(), rules.sizes.end(), is_sheet) == 1);
    for (std::size_t i = 0; i < cut.pieces.size(); ++i) {
      const PlacedPiece& placed = cut.pieces[i];
      ++times[placed.piece];
      REQUIRE(as_given(placed, pieces[placed.piece], rules.may_turn));
      REQUIRE(placed.x >= 0);
      REQUIRE(placed.y >= 0);
      REQUIRE(placed.x + placed.size.width <= cut.sheet.width);
      REQUIRE(placed.y + placed.size.length <= cut.sheet.length);
      for (std::size_t k = 0; k < i; ++k) REQUIRE(kept_apart(placed, cut.pieces[k], rules.kerf));
    }
    REQUIRE(is_guillotine(cut.pieces));
  }
  CHECK(std::all_of(times.begin(), times.end(), [](int n) { return n == 1; }));
}

}  // namespace

TEST_CASE("pieces never overlap, never leave the sheet, are cut once and by guillotine") {
  std::mt19937 random(31);
  const bool may_turn = GENERATE(false, true);
  const Micrometres kerf = GENERATE(0, 4000);
  const SheetRules rules{{{1200000, 2400000}, {1250000, 3000000}}, kerf, may_turn};
  for (const std::size_t count : {1U, 5U, 150U}) {
    const auto pieces = random_flat_pieces(random, count);
    const auto sheets = nest_sheets(pieces, rules);
    check_sheets(sheets, pieces, rules);
    // Equal up to the rounding of a sum of products.
    CHECK(sheet_area_bound_m2(pieces, rules) <= bought_area_m2(sheets) * (1.0 + 1e-9));
  }
}

TEST_CASE("more pieces than are nested together are all cut, each once") {
  std::mt19937 random(32);
  const SheetRules rules{{{1200000, 2400000}}, 4000, false};
  const auto pieces = random_flat_pieces(random, 5100);
  check_sheets(nest_sheets(pieces, rules), pieces, rules);
}

TEST_CASE("a turned piece is cut only where turning is allowed") {
  const std::vector<FlatSize> pieces{{2000000, 1000000}};
  const FlatSize sheet{1200000, 2400000};
  CHECK_FALSE(fits(pieces[0], sheet, false));
  REQUIRE(fits(pieces[0], sheet, true));
  const auto sheets = nest_sheets(pieces, {{sheet}, 4000, true});
  REQUIRE(sheets.size() == 1);
  CHECK(sheets[0].pieces[0].size.width == 1000000);
}

TEST_CASE("a few pieces are cut from the smallest sheet that holds them") {
  const auto sheets = nest_sheets({{500000, 500000}}, {{{1200000, 3000000}, {1200000, 2400000}}, 4000, false});
  REQUIRE(sheets.size() == 1);
  CHECK(sheets[0].sheet.length == 2400000);
}

TEST_CASE("the bound of nothing is nothing") {
  CHECK(nest_sheets({}, {{{1200000, 2400000}}, 0, false}).empty());
  CHECK(sheet_area_bound_m2({}, {{{1200000, 2400000}}, 0, false}) == 0.0);
}

// Closed form: a sheet a·m by b·n holds m·n pieces a by b without waste.
TEST_CASE("sheets that divide evenly are used whole") {
  const SheetRules rules{{{1200, 2400}}, 0, false};
  const std::vector<FlatSize> pieces(240, FlatSize{300, 400});
  CHECK(nest_sheets(pieces, rules).size() == 10);
  CHECK(sheet_area_bound_m2(pieces, rules) == Approx(10 * 1200.0 * 2400.0 * 1e-12).epsilon(1e-12));
}

// Closed form: no sheet holds two pieces larger than half of it both ways, so n pieces need n sheets; by area alone
// about n/4 would do.
TEST_CASE("pieces over half a sheet both ways need a sheet each") {
  const SheetRules rules{{{1000, 1000}}, 0, true};
  const std::vector<FlatSize> pieces(20, FlatSize{501, 501});
  CHECK(nest_sheets(pieces, rules).size() == 20);
  CHECK(sheet_area_bound_m2(pieces, rules) == Approx(20 * 1e-6).epsilon(1e-12));
}

// Closed form: thirds and a saw. Three strips of a third fit a sheet without kerf and only two with one.
TEST_CASE("the kerf is counted between pieces and not behind the last") {
  const std::vector<FlatSize> strips(3, FlatSize{400, 2400});
  CHECK(nest_sheets(strips, {{{1200, 2400}}, 0, false}).size() == 1);
  CHECK(nest_sheets(strips, {{{1200, 2400}}, 4, false}).size() == 2);
  CHECK(nest_sheets(strips, {{{1208, 2400}}, 4, false}).size() == 1);
  CHECK(sheet_area_bound_m2(strips, {{{1200, 2400}}, 4, false}) == Approx(2 * 1200.0 * 2400.0 * 1e-12));
}
