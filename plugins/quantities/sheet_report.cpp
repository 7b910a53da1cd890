#include "plugins/quantities/sheet_report.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "core/api/exact_sum.h"
#include "plugins/quantities/part_names.h"

namespace panel_dossier::quantities {

namespace {

constexpr double kPercent = 100.0;
constexpr std::size_t kMostDrawn = 12;
/// Clear of the sheet's edge, so that dimensions do not cover pieces.
constexpr double kDimensionOffset_m = 0.12;

using Group = std::pair<std::string, Micrometres>;

std::string size_text(const FlatSize& size) {
  return section_name(size.width, size.length);
}

/// What makes two sheets the same to cut.
auto key_of(const CutSheet& cut) {
  std::vector<std::tuple<Micrometres, Micrometres, Micrometres, Micrometres>> places;
  for (const PlacedPiece& piece : cut.pieces) {
    places.emplace_back(piece.x, piece.y, piece.size.width, piece.size.length);
  }
  std::sort(places.begin(), places.end());
  return std::tuple(cut.sheet.width, cut.sheet.length, places);
}

/// For example `12 × 1200 × 2400 mm`.
std::string sheets_in_words(const std::map<std::pair<Micrometres, Micrometres>, int>& counts) {
  std::string words;
  for (const auto& [size, count] : counts) {
    words += (words.empty() ? "" : ", ") + std::to_string(count) + " × " + size_text({size.first, size.second}) + " mm";
  }
  return words;
}

/// Sums over several plans.
struct Sum {
  std::size_t pieces = 0;
  int sheets = 0;
  ExactSum net_m2;
  ExactSum bought_m2;
  ExactSum bound_m2;
  std::map<std::pair<Micrometres, Micrometres>, int> sizes;

  void add(const SheetPlan& plan) {
    pieces += plan.pieces;
    net_m2.add(plan.net_m2);
    bought_m2.add(plan.bought_m2);
    bound_m2.add(plan.bound_m2);
    for (const SheetLayout& layout : plan.layouts) {
      sheets += layout.times;
      sizes[{layout.cut.sheet.width, layout.cut.sheet.length}] += layout.times;
    }
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

/// A layout of one of the plans.
struct Place {
  const SheetPlan* plan = nullptr;
  const SheetLayout* layout = nullptr;
};

/// The first layout of every group before the second of any.
std::vector<Place> places_drawn(const std::vector<SheetPlan>& plans) {
  std::map<Group, std::vector<Place>> groups;
  for (const SheetPlan& plan : plans) {
    for (const SheetLayout& layout : plan.layouts) {
      if (layout.cut.pieces.size() > 1) groups[{plan.material, plan.thickness}].push_back({&plan, &layout});
    }
  }
  for (auto& [group, places] : groups) {
    std::stable_sort(places.begin(), places.end(), [](const Place& a, const Place& b) {
      return a.layout->cut.pieces.size() > b.layout->cut.pieces.size();
    });
  }
  std::vector<Place> drawn;
  for (std::size_t rank = 0; drawn.size() < kMostDrawn; ++rank) {
    const std::size_t before = drawn.size();
    for (const auto& [group, places] : groups) {
      if (rank < places.size() && drawn.size() < kMostDrawn) drawn.push_back(places[rank]);
    }
    if (drawn.size() == before) break;
  }
  return drawn;
}

Polygon rectangle(double x, double y, double width, double length) {
  return {{x, y}, {x + width, y}, {x + width, y + length}, {x, y + length}};
}

std::string plan_name(const SheetPlan& plan) {
  const std::string batch = plan.batch.empty() ? "" : ", batch " + plan.batch;
  return plan.material + " " + millimetres_text(plan.thickness) + " mm" + batch;
}

Drawing drawing_of(const Place& place) {
  const CutSheet& cut = place.layout->cut;
  const double width = metres(cut.sheet.width);
  const double length = metres(cut.sheet.length);
  Drawing drawing;
  drawing.title = plan_name(*place.plan) + ": " + std::to_string(place.layout->times) +
                  (place.layout->times == 1 ? " sheet" : " sheets");
  drawing.polygons.push_back({rectangle(0.0, 0.0, width, length), Hatch::none, LineStyle::heavy, ""});
  for (const PlacedPiece& piece : cut.pieces) {
    drawing.polygons.push_back(
        {rectangle(metres(piece.x), metres(piece.y), metres(piece.size.width), metres(piece.size.length)), Hatch::board,
         LineStyle::normal, size_text(piece.size)});
  }
  drawing.dimensions.push_back({{width, 0.0}, {0.0, 0.0}, kDimensionOffset_m, ""});
  drawing.dimensions.push_back({{0.0, 0.0}, {0.0, length}, kDimensionOffset_m, ""});
  return drawing;
}

}  // namespace

std::vector<SheetLayout> layouts_of(const std::vector<CutSheet>& sheets) {
  std::map<decltype(key_of(CutSheet{})), SheetLayout> layouts;
  for (const CutSheet& cut : sheets) {
    SheetLayout& layout = layouts[key_of(cut)];
    if (layout.times++ == 0) layout.cut = cut;
  }
  std::vector<SheetLayout> result;
  result.reserve(layouts.size());
  for (auto& [key, layout] : layouts) result.push_back(std::move(layout));
  std::stable_sort(result.begin(), result.end(),
                   [](const SheetLayout& a, const SheetLayout& b) { return a.times > b.times; });
  return result;
}

Table sheet_table(const std::vector<SheetPlan>& plans) {
  std::map<Group, Sum> groups;
  for (const SheetPlan& plan : plans) groups[{plan.material, plan.thickness}].add(plan);
  Table table{"Sheets and slabs by material",
              {{"material", ""},
               {"thickness", "mm"},
               {"pieces", ""},
               {"net area", "m²"},
               {"sheets to buy", ""},
               {"bought", "m²"},
               {"no plan below", "m²"},
               {"yield", "%"}},
              {}};
  for (const auto& [group, sum] : groups) {
    table.rows.push_back({group.first, millimetres(group.second), static_cast<double>(sum.pieces), sum.net_m2.total(),
                          sheets_in_words(sum.sizes), sum.bought_m2.total(), sum.bound_m2.total(),
                          kPercent * sum.net_m2.total() / sum.bought_m2.total()});
  }
  return table;
}

Table batch_table(const std::vector<SheetPlan>& plans) {
  Table table{"By batch",
              {{"batch", ""}, {"material", ""}, {"thickness", "mm"}, {"pieces", ""}, {"sheets", ""}, {"yield", "%"}},
              {}};
  for (const SheetPlan& plan : plans) {
    Sum sum;
    sum.add(plan);
    table.rows.push_back({plan.batch.empty() ? "not known" : plan.batch, plan.material, millimetres(plan.thickness),
                          static_cast<double>(plan.pieces), static_cast<double>(sum.sheets),
                          kPercent * plan.net_m2 / plan.bought_m2});
  }
  return table;
}

Table layout_table(const std::vector<SheetPlan>& plans) {
  const std::vector<Place> drawn = places_drawn(plans);
  struct Uses {
    int sheets = 0;
    std::vector<std::string> batches;  ///< each with its sheets, for example `3: 2`
  };
  std::map<std::tuple<std::string, Micrometres, std::string, std::string>, Uses> uses;
  for (const SheetPlan& plan : plans) {
    std::map<const Uses*, int> in_plan;
    for (const SheetLayout& layout : plan.layouts) {
      const auto is_this = [&layout](const Place& place) { return place.layout == &layout; };
      if (std::any_of(drawn.begin(), drawn.end(), is_this)) continue;
      Uses& use = uses[{plan.material, plan.thickness, size_text(layout.cut.sheet), pieces_in_words(layout.cut)}];
      use.sheets += layout.times;
      in_plan[&use] += layout.times;
    }
    for (auto& [key, use] : uses) {
      const auto found = in_plan.find(&use);
      if (found == in_plan.end()) continue;
      use.batches.push_back((plan.batch.empty() ? "not known" : plan.batch) + ": " + std::to_string(found->second));
    }
  }
  Table table{"Sheets not drawn",
              {{"material", ""},
               {"thickness", "mm"},
               {"sheets", ""},
               {"sheet", "mm"},
               {"cut into", "mm"},
               {"batch: sheets", ""}},
              {}};
  for (const auto& [key, use] : uses) {
    const auto& [material, thickness, sheet, pieces] = key;
    table.rows.push_back(
        {material, millimetres(thickness), static_cast<double>(use.sheets), sheet, pieces, part_names(use.batches)});
  }
  return table;
}

std::vector<Drawing> layout_drawings(const std::vector<SheetPlan>& plans) {
  const std::vector<Place> drawn = places_drawn(plans);
  std::vector<Drawing> drawings;
  drawings.reserve(drawn.size());
  for (const Place& place : drawn) drawings.push_back(drawing_of(place));
  return drawings;
}

}  // namespace panel_dossier::quantities
