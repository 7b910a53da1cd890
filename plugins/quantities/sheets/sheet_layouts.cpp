#include "plugins/quantities/sheets/sheet_layouts.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>
#include <utility>

#include "core/api/support/geometry.h"

namespace panel_dossier::quantities {

namespace {

constexpr std::size_t kMostDrawn = 12;

using Group = std::pair<MaterialKey, Micrometres>;

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

/// A layout as its sheets are gathered.
struct Gathered {
  SheetLayout layout;
  std::vector<std::set<std::string>> labels;  ///< by piece: of all parts that lie there

  void add(CutSheet cut, const std::vector<PieceName>& names) {
    labels.resize(cut.pieces.size());
    layout.parts.resize(cut.pieces.size());
    for (std::size_t i = 0; i < cut.pieces.size(); ++i) {
      const PieceName& name = names[cut.pieces[i].piece];
      labels[i].insert(name.label());
      if (layout.times == 0) layout.parts[i].first = name;
      layout.parts[i].others = labels[i].size() - 1;
    }
    if (layout.times++ == 0) layout.cut = std::move(cut);
  }
};

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
  std::vector<std::pair<std::string, int>> batches;  ///< each with its sheets, in the order of the plans

  void add(const std::string& batch, int times) {
    sheets += times;
    const auto same = [&batch](const auto& other) { return other.first == batch; };
    const auto found = std::find_if(batches.begin(), batches.end(), same);
    if (found == batches.end()) {
      batches.emplace_back(batch, times);
    } else {
      found->second += times;
    }
  }
};

/// For example `3: 2; 4: 1`.
std::string batches_in_words(const Uses& uses) {
  std::vector<std::string> words;
  for (const auto& [batch, sheets] : uses.batches) {
    words.push_back((batch.empty() ? "not known" : batch) + ": " + std::to_string(sheets));
  }
  return part_names(words);
}

/// Material, thickness, sheet, pieces.
using UseKey = std::tuple<MaterialKey, Micrometres, std::string, std::string>;
using UsesByKey = std::map<UseKey, Uses>;

void add_uses(const SheetPlan& plan, const std::vector<LayoutPlace>& drawn, UsesByKey& uses) {
  std::map<UseKey, int> in_plan;
  for (const SheetLayout& layout : plan.layouts) {
    const auto is_this = [&layout](const LayoutPlace& place) { return place.layout == &layout; };
    if (std::any_of(drawn.begin(), drawn.end(), is_this)) continue;
    in_plan[{plan.material, plan.thickness, size_text(layout.cut.sheet), pieces_in_words(layout.cut)}] += layout.times;
  }
  for (const auto& [key, times] : in_plan) uses[key].add(plan.batch, times);
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
  std::map<decltype(key_of(CutSheet{})), Gathered> layouts;
  for (const CutSheet& sheet : sheets) {
    CutSheet cut = by_place(sheet);
    Gathered& gathered = layouts[key_of(cut)];
    gathered.add(std::move(cut), names);
  }
  std::vector<SheetLayout> result;
  result.reserve(layouts.size());
  for (auto& [key, gathered] : layouts) result.push_back(std::move(gathered.layout));
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

Table layout_table(const Project& project, const std::vector<SheetPlan>& plans, std::optional<std::size_t> listed) {
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
  const auto rows = rows_listed(uses, listed);
  std::set<UseKey> shown;
  for (const auto& row : rows) {
    const auto& [material, thickness, sheet, pieces] = row->first;
    shown.insert(row->first);
    table.rows.push_back({printed_name(project, material), millimetres(thickness),
                          static_cast<double>(row->second.sheets), sheet, pieces, batches_in_words(row->second)});
  }
  if (rows.size() == uses.size()) return table;
  Uses rest;
  for (const SheetPlan& plan : plans) {
    UsesByKey of_plan;
    add_uses(plan, drawn, of_plan);
    for (const auto& [key, use] : of_plan) {
      if (shown.count(key) == 0) rest.add(plan.batch, use.sheets);
    }
  }
  table.rows.push_back({"all other",
                        {},
                        static_cast<double>(rest.sheets),
                        "",
                        std::to_string(uses.size() - rows.size()) +
                            " ways to cut, none of more sheets than those above; setting "
                            "quantities.sheet_layouts_listed shows more",
                        batches_in_words(rest)});
  return table;
}

namespace {

enum class Along { x, y };

struct Region {
  Micrometres x_min = 0;
  Micrometres x_max = 0;
  Micrometres y_min = 0;
  Micrometres y_max = 0;
  std::vector<PlacedPiece> pieces;
};

Micrometres low(const PlacedPiece& piece, Along along) {
  return along == Along::x ? piece.x : piece.y;
}

Micrometres high(const PlacedPiece& piece, Along along) {
  return low(piece, along) + (along == Along::x ? piece.size.width : piece.size.length);
}

/// Where the first cut through the region may start, behind or before a piece, that parts something and crosses none.
std::optional<Micrometres> cut_along(const Region& region, Along along, Micrometres kerf) {
  const Micrometres start = along == Along::x ? region.x_min : region.y_min;
  const Micrometres end = along == Along::x ? region.x_max : region.y_max;
  std::optional<Micrometres> first;
  for (const PlacedPiece& candidate : region.pieces) {
    for (const Micrometres line : {high(candidate, along), low(candidate, along) - kerf}) {
      const auto crossed = [&](const PlacedPiece& piece) {
        return low(piece, along) < line + kerf && high(piece, along) > line;
      };
      if (line <= start || line + kerf >= end || (first && line >= *first)) continue;
      if (std::none_of(region.pieces.begin(), region.pieces.end(), crossed)) first = line;
    }
  }
  return first;
}

/// Both sides of a cut that starts at `line`.
std::pair<Region, Region> parted(const Region& region, Along along, Micrometres line, Micrometres kerf) {
  Region below = region;
  Region above = region;
  below.pieces.clear();
  above.pieces.clear();
  (along == Along::x ? below.x_max : below.y_max) = line;
  (along == Along::x ? above.x_min : above.y_min) = line + kerf;
  for (const PlacedPiece& piece : region.pieces) {
    (high(piece, along) <= line ? below : above).pieces.push_back(piece);
  }
  return {std::move(below), std::move(above)};
}

void add_offcuts(const Region& region, Micrometres kerf, std::vector<Offcut>& offcuts) {
  if (region.pieces.empty()) {
    const FlatSize size{region.x_max - region.x_min, region.y_max - region.y_min};
    if (size.width > 0 && size.length > 0) offcuts.push_back({region.x_min, region.y_min, size});
    return;
  }
  const auto across_x = cut_along(region, Along::x, kerf);
  const auto across_y = cut_along(region, Along::y, kerf);
  if (!across_x && !across_y) return;
  const Along along = across_x ? Along::x : Along::y;
  const auto [below, above] = parted(region, along, across_x ? *across_x : *across_y, kerf);
  add_offcuts(below, kerf, offcuts);
  add_offcuts(above, kerf, offcuts);
}

}  // namespace

std::vector<Offcut> offcuts_of(const CutSheet& cut, Micrometres kerf) {
  std::vector<Offcut> offcuts;
  add_offcuts({0, cut.sheet.width, 0, cut.sheet.length, cut.pieces}, kerf, offcuts);
  return offcuts;
}

namespace {

/// Clear of the sheet's edge and of each other, as shares of its length, for long sheets are drawn smaller.
constexpr double kPieceDimensions = 0.08;
constexpr double kSheetDimensions = 0.18;

Polygon outline_of(Micrometres x, Micrometres y, const FlatSize& size) {
  return rectangle(metres(x), metres(y), metres(x + size.width), metres(y + size.length));
}

std::string title_of(const Project& project, const LayoutPlace& place) {
  const SheetPlan& plan = *place.plan;
  const std::string batch = plan.batch.empty() ? "" : ", batch " + plan.batch;
  const int times = place.layout->times;
  return printed_name(project, plan.material) + " " + millimetres_text(plan.thickness) + " mm" + batch + ": " +
         std::to_string(times) + (times == 1 ? " sheet" : " sheets alike");
}

std::string label_of(const LaidParts& parts) {
  const std::string first = parts.first.label();
  return parts.others == 0 ? first : first + " +" + std::to_string(parts.others);
}

/// The panel for whose piece the sheet is opened: that of the largest.
const std::string& opened_for(const SheetLayout& layout) {
  const std::vector<PlacedPiece>& pieces = layout.cut.pieces;
  const auto largest = std::max_element(pieces.begin(), pieces.end(), [](const PlacedPiece& a, const PlacedPiece& b) {
    return area_of(a.size) < area_of(b.size);
  });
  return layout.parts[static_cast<std::size_t>(largest - pieces.begin())].first.panel;
}

void add_pieces(const SheetLayout& layout, Drawing& drawing) {
  const std::string& panel = opened_for(layout);
  for (std::size_t i = 0; i < layout.cut.pieces.size(); ++i) {
    const PlacedPiece& piece = layout.cut.pieces[i];
    const bool from_offcut = layout.parts[i].first.panel != panel;
    drawing.polygons.push_back({outline_of(piece.x, piece.y, piece.size), from_offcut ? Hatch::timber : Hatch::none,
                                LineStyle::normal, label_of(layout.parts[i])});
  }
}

void add_dimensions(const CutSheet& cut, Drawing& drawing) {
  const double width = metres(cut.sheet.width);
  const double length = metres(cut.sheet.length);
  const double to_pieces = kPieceDimensions * length;
  const double to_sheet = kSheetDimensions * length;
  for (const PlacedPiece& piece : cut.pieces) {
    const double right = metres(piece.x + piece.size.width);
    const double top = metres(piece.y + piece.size.length);
    if (piece.y == 0) drawing.dimensions.push_back({{right, 0.0}, {metres(piece.x), 0.0}, to_pieces, ""});
    if (piece.x == 0) drawing.dimensions.push_back({{0.0, metres(piece.y)}, {0.0, top}, to_pieces, ""});
  }
  drawing.dimensions.push_back({{width, 0.0}, {0.0, 0.0}, to_sheet, ""});
  drawing.dimensions.push_back({{0.0, 0.0}, {0.0, length}, to_sheet, ""});
}

Drawing drawing_of(const Project& project, const LayoutPlace& place) {
  const CutSheet& cut = place.layout->cut;
  Drawing drawing;
  drawing.title = title_of(project, place);
  drawing.polygons.push_back({outline_of(0, 0, cut.sheet), Hatch::none, LineStyle::heavy, ""});
  for (const Offcut& offcut : offcuts_of(cut, place.plan->kerf)) {
    drawing.polygons.push_back(
        {outline_of(offcut.x, offcut.y, offcut.size), Hatch::metal, LineStyle::thin, size_text(offcut.size)});
  }
  add_pieces(*place.layout, drawing);
  add_dimensions(cut, drawing);
  return drawing;
}

}  // namespace

std::vector<Drawing> layout_drawings(const Project& project, const std::vector<SheetPlan>& plans) {
  std::vector<Drawing> drawings;
  for (const LayoutPlace& place : layouts_drawn(plans)) drawings.push_back(drawing_of(project, place));
  return drawings;
}

}  // namespace panel_dossier::quantities
