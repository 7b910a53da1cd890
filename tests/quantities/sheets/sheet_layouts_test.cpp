// Offcuts, layouts and cutting sheets.
#include "plugins/quantities/sheets/sheet_layouts.h"

#include <catch2/catch.hpp>
#include <random>
#include <string>
#include <vector>

using namespace panel_dossier;
using namespace panel_dossier::quantities;

namespace {

constexpr Micrometres kMillimetre = 1000;

std::vector<FlatSize> random_pieces(std::mt19937& random, std::size_t count) {
  std::uniform_int_distribution<Micrometres> wide(50, 1200);
  std::uniform_int_distribution<Micrometres> lengthwise(50, 2400);
  std::vector<FlatSize> pieces;
  for (std::size_t i = 0; i < count; ++i) {
    pieces.push_back({wide(random) * kMillimetre, lengthwise(random) * kMillimetre});
  }
  return pieces;
}

template <typename A, typename B>
bool apart(const A& a, const B& b) {
  return a.x + a.size.width <= b.x || b.x + b.size.width <= a.x || a.y + a.size.length <= b.y ||
         b.y + b.size.length <= a.y;
}

/// One sheet of 1.2 m by 2.4 m cut into three boards, for two panels.
SheetPlan plan_of(int sheets) {
  const std::vector<FlatSize> pieces{{1200 * kMillimetre, 1000 * kMillimetre},
                                     {600 * kMillimetre, 900 * kMillimetre},
                                     {300 * kMillimetre, 900 * kMillimetre}};
  const SheetRules rules{{{1200 * kMillimetre, 2400 * kMillimetre}}, 4 * kMillimetre, false};
  const std::vector<CutSheet> one = nest_sheets(pieces, rules);
  REQUIRE(one.size() == 1);
  std::vector<CutSheet> all;
  std::vector<PieceName> names;
  for (int i = 0; i < sheets; ++i) {
    CutSheet copy = one.front();
    for (PlacedPiece& piece : copy.pieces) piece.piece += static_cast<std::size_t>(i) * 3;
    all.push_back(copy);
    const std::string panel = "P" + std::to_string(i);
    names.insert(names.end(), {{panel, "SH1"}, {"Q", "SH2"}, {"Q", "SH3"}});
  }
  SheetPlan plan;
  plan.material = {"board", {}};
  plan.thickness = 12 * kMillimetre;
  plan.batch = "7";
  plan.kerf = rules.kerf;
  plan.layouts = layouts_of(all, names);
  return plan;
}

}  // namespace

TEST_CASE("pieces and offcuts share the sheet without overlap, and all of it when the saw takes nothing") {
  std::mt19937 random(71);
  const bool may_turn = GENERATE(false, true);
  const Micrometres kerf = GENERATE(0, 4) * kMillimetre;
  const SheetRules rules{
      {{1200 * kMillimetre, 2400 * kMillimetre}, {1250 * kMillimetre, 3000 * kMillimetre}}, kerf, may_turn};
  for (const CutSheet& cut : nest_sheets(random_pieces(random, 200), rules)) {
    const std::vector<Offcut> offcuts = offcuts_of(cut, kerf);
    Micrometres taken = 0;
    for (const PlacedPiece& piece : cut.pieces) taken += area_of(piece.size);
    for (std::size_t i = 0; i < offcuts.size(); ++i) {
      taken += area_of(offcuts[i].size);
      REQUIRE(offcuts[i].size.width > 0);
      REQUIRE(offcuts[i].size.length > 0);
      REQUIRE(offcuts[i].x >= 0);
      REQUIRE(offcuts[i].y >= 0);
      REQUIRE(offcuts[i].x + offcuts[i].size.width <= cut.sheet.width);
      REQUIRE(offcuts[i].y + offcuts[i].size.length <= cut.sheet.length);
      for (const PlacedPiece& piece : cut.pieces) REQUIRE(apart(offcuts[i], piece));
      for (std::size_t k = 0; k < i; ++k) REQUIRE(apart(offcuts[i], offcuts[k]));
    }
    if (kerf == 0) {
      REQUIRE(taken == area_of(cut.sheet));
    } else {
      // Each piece has at most a cut along two of its sides and beyond them the rest of the sheet.
      const auto cuts = static_cast<Micrometres>(2 * cut.pieces.size());
      REQUIRE(taken <= area_of(cut.sheet));
      REQUIRE(taken >= area_of(cut.sheet) - cuts * kerf * cut.sheet.length);
    }
  }
}

TEST_CASE("a piece alone leaves what is beside it and what is behind it") {
  const CutSheet cut{{1200, 2400}, {{0, 0, 0, {700, 1000}}}};
  const std::vector<Offcut> offcuts = offcuts_of(cut, 4);
  REQUIRE(offcuts.size() == 2);
  CHECK(offcuts[0].y == 1004);
  CHECK(offcuts[0].size.width == 700);
  CHECK(offcuts[1].x == 704);
  CHECK(offcuts[1].size.length == 2400);
}

TEST_CASE("a sheet used whole leaves nothing") {
  CHECK(offcuts_of({{1200, 2400}, {{0, 0, 0, {1200, 2400}}}}, 4).empty());
  CHECK(offcuts_of({{1200, 2400}, {{0, 0, 0, {1198, 2400}}}}, 4).empty());
}

TEST_CASE("sheets cut alike are one layout that counts each part once") {
  const SheetPlan plan = plan_of(3);
  REQUIRE(plan.layouts.size() == 1);
  CHECK(plan.layouts[0].times == 3);
  std::size_t others = 0;
  for (const LaidParts& parts : plan.layouts[0].parts) others += parts.others;
  CHECK(plan.layouts[0].parts.size() == 3);
  CHECK(others == 2);
}

TEST_CASE("pieces on a cutting sheet bear panel and part mark, and offcuts are crossed") {
  const std::vector<SheetPlan> plans{plan_of(3)};
  const std::vector<Drawing> drawings = layout_drawings(Project{}, plans);
  REQUIRE(drawings.size() == 1);
  CHECK(drawings[0].title == "board 12 mm, batch 7: 3 sheets alike");
  std::vector<std::string> labels;
  std::size_t crossed = 0;
  for (const DrawnPolygon& polygon : drawings[0].polygons) {
    if (polygon.hatch == Hatch::metal) {
      ++crossed;
    } else if (!polygon.label.empty()) {
      labels.push_back(polygon.label);
      CHECK((polygon.hatch == Hatch::timber) == (polygon.label[0] == 'Q'));
    }
  }
  CHECK(labels == std::vector<std::string>{"P0/SH1 +2", "Q/SH2", "Q/SH3"});
  CHECK(crossed >= 2);
}

TEST_CASE("the list of layouts is cut to those of most sheets and counts the rest") {
  SheetPlan plan;
  plan.material = {"board", {}};
  plan.batch = "9";
  for (Micrometres i = 1; i <= 5; ++i) {
    // One piece a sheet, so none is drawn.
    plan.layouts.push_back({{{1200 * kMillimetre, 2400 * kMillimetre}, {{0, 0, 0, {i * kMillimetre, kMillimetre}}}},
                            static_cast<int>(i),
                            {{{"P", "SH1"}, 0}}});
  }
  CHECK(layout_table(Project{}, {plan}, std::nullopt).rows.size() == 5);
  CHECK(layout_table(Project{}, {plan}, 5).rows.size() == 5);
  const Table table = layout_table(Project{}, {plan}, 2);
  REQUIRE(table.rows.size() == 3);
  double sheets = 0.0;
  for (const auto& row : table.rows) sheets += std::get<double>(row[2]);
  CHECK(sheets == 15.0);
  CHECK(std::get<double>(table.rows[2][2]) == 6.0);
  CHECK(std::get<std::string>(table.rows[2][4]) ==
        "3 ways to cut, none of more sheets than those above; setting quantities.sheet_layouts_listed shows more");
  CHECK(std::get<std::string>(table.rows[2][5]) == "9: 6");
}
