#include "plugins/quantities/sheets/layout_drawings.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include "core/api/support/geometry.h"
#include "plugins/quantities/cutting/part_names.h"

namespace panel_dossier::quantities {

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
