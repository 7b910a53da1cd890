#include "plugins/quantities/sheet_layouts.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "plugins/quantities/part_names.h"

namespace panel_dossier::quantities {

namespace {

constexpr std::size_t kMostDrawn = 12;

using Group = std::pair<std::string, Micrometres>;

auto place_of(const PlacedPiece& piece) {
  return std::tuple(piece.y, piece.x, piece.size.width, piece.size.length);
}

CutSheet by_place(CutSheet cut) {
  std::sort(cut.pieces.begin(), cut.pieces.end(),
            [](const PlacedPiece& a, const PlacedPiece& b) { return place_of(a) < place_of(b); });
  return cut;
}

/// What makes two sheets, their pieces by place, the same to cut.
auto key_of(const CutSheet& cut) {
  std::vector<decltype(place_of(PlacedPiece{}))> places;
  places.reserve(cut.pieces.size());
  for (const PlacedPiece& piece : cut.pieces) places.push_back(place_of(piece));
  return std::tuple(cut.sheet.width, cut.sheet.length, places);
}

void add_name(std::vector<PieceName>& names, const PieceName& name) {
  const auto same = [&name](const PieceName& other) { return other.label() == name.label(); };
  if (std::none_of(names.begin(), names.end(), same)) names.push_back(name);
}

std::string pieces_in_words(const CutSheet& cut) {
  std::map<std::pair<Micrometres, Micrometres>, int> counts;
  for (const PlacedPiece& piece : cut.pieces) ++counts[{-piece.size.length, -piece.size.width}];
  std::string words;
  for (const auto& [size, count] : counts) {
    words += (words.empty() ? "" : ", ") + std::to_string(count) + " of " + size_text({-size.second, -size.first});
  }
  return words;
}

/// Sheets cut into the same pieces.
struct Uses {
  int sheets = 0;
  std::vector<std::string> batches;  ///< each with its sheets, for example `3: 2`
};

/// Material, thickness, sheet, pieces.
using UseKey = std::tuple<std::string, Micrometres, std::string, std::string>;
using UsesByKey = std::map<UseKey, Uses>;

void add_uses(const SheetPlan& plan, const std::vector<LayoutPlace>& drawn, UsesByKey& uses) {
  std::map<UseKey, int> in_plan;
  for (const SheetLayout& layout : plan.layouts) {
    const auto is_this = [&layout](const LayoutPlace& place) { return place.layout == &layout; };
    if (std::any_of(drawn.begin(), drawn.end(), is_this)) continue;
    in_plan[{plan.material, plan.thickness, size_text(layout.cut.sheet), pieces_in_words(layout.cut)}] += layout.times;
  }
  for (const auto& [key, times] : in_plan) {
    Uses& use = uses[key];
    use.sheets += times;
    use.batches.push_back((plan.batch.empty() ? "not known" : plan.batch) + ": " + std::to_string(times));
  }
}

/// Of rows that tie for the last place, the first in order.
std::vector<UsesByKey::const_iterator> rows_listed(const UsesByKey& uses, std::optional<std::size_t> listed) {
  std::vector<UsesByKey::const_iterator> rows;
  for (auto use = uses.begin(); use != uses.end(); ++use) rows.push_back(use);
  if (!listed || rows.size() <= *listed) return rows;
  std::stable_sort(rows.begin(), rows.end(),
                   [](const auto& a, const auto& b) { return a->second.sheets > b->second.sheets; });
  rows.resize(*listed);
  std::sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) { return a->first < b->first; });
  return rows;
}

}  // namespace

std::string size_text(const FlatSize& size) {
  return section_name(size.width, size.length);
}

std::vector<SheetLayout> layouts_of(const std::vector<CutSheet>& sheets, const std::vector<PieceName>& names) {
  std::map<decltype(key_of(CutSheet{})), SheetLayout> layouts;
  for (const CutSheet& sheet : sheets) {
    CutSheet cut = by_place(sheet);
    SheetLayout& layout = layouts[key_of(cut)];
    layout.parts.resize(cut.pieces.size());
    for (std::size_t i = 0; i < cut.pieces.size(); ++i) add_name(layout.parts[i], names[cut.pieces[i].piece]);
    if (layout.times++ == 0) layout.cut = std::move(cut);
  }
  std::vector<SheetLayout> result;
  result.reserve(layouts.size());
  for (auto& [key, layout] : layouts) result.push_back(std::move(layout));
  std::stable_sort(result.begin(), result.end(),
                   [](const SheetLayout& a, const SheetLayout& b) { return a.times > b.times; });
  return result;
}

std::vector<LayoutPlace> layouts_drawn(const std::vector<SheetPlan>& plans) {
  std::map<Group, std::vector<LayoutPlace>> groups;
  for (const SheetPlan& plan : plans) {
    for (const SheetLayout& layout : plan.layouts) {
      if (layout.cut.pieces.size() > 1) groups[{plan.material, plan.thickness}].push_back({&plan, &layout});
    }
  }
  for (auto& [group, places] : groups) {
    std::stable_sort(places.begin(), places.end(), [](const LayoutPlace& a, const LayoutPlace& b) {
      return a.layout->cut.pieces.size() > b.layout->cut.pieces.size();
    });
  }
  std::vector<LayoutPlace> drawn;
  for (std::size_t rank = 0; drawn.size() < kMostDrawn; ++rank) {
    const std::size_t before = drawn.size();
    for (const auto& [group, places] : groups) {
      if (rank < places.size() && drawn.size() < kMostDrawn) drawn.push_back(places[rank]);
    }
    if (drawn.size() == before) break;
  }
  return drawn;
}

Table layout_table(const std::vector<SheetPlan>& plans, std::optional<std::size_t> listed) {
  const std::vector<LayoutPlace> drawn = layouts_drawn(plans);
  UsesByKey uses;
  for (const SheetPlan& plan : plans) add_uses(plan, drawn, uses);
  Table table{"Sheets not drawn",
              {{"material", ""},
               {"thickness", "mm"},
               {"sheets", ""},
               {"sheet", "mm"},
               {"cut into", "mm"},
               {"batch: sheets", ""}},
              {}};
  int rest = 0;
  for (const auto& [key, use] : uses) rest += use.sheets;
  const auto rows = rows_listed(uses, listed);
  for (const auto& row : rows) {
    const auto& [material, thickness, sheet, pieces] = row->first;
    table.rows.push_back({material, millimetres(thickness), static_cast<double>(row->second.sheets), sheet, pieces,
                          part_names(row->second.batches)});
    rest -= row->second.sheets;
  }
  if (rows.size() < uses.size()) {
    table.rows.push_back(
        {"all other",
         {},
         static_cast<double>(rest),
         "",
         std::to_string(uses.size() - rows.size()) + " ways to cut, none of more sheets than those above",
         ""});
  }
  return table;
}

}  // namespace panel_dossier::quantities
