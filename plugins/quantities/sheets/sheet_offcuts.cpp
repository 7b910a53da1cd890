#include "plugins/quantities/sheets/sheet_offcuts.h"

#include <algorithm>
#include <optional>
#include <utility>

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

}  // namespace panel_dossier::quantities
