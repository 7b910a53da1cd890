// Cutting rectangles from sheets by cuts from edge to edge, as panel saws and slab cutters do, and the area of sheets
// that no way of cutting can save.
#pragma once

#include <cstddef>
#include <vector>

#include "plugins/quantities/cutting/cut_parts.h"

namespace panel_dossier::quantities {

/// A sheet as bought, or a piece of one. `length` lies along the grain.
struct FlatSize {
  Micrometres width = 0;
  Micrometres length = 0;
};

/// In square micrometres; 63 bits hold nine square kilometres.
inline Micrometres area_of(const FlatSize& size) {
  return size.width * size.length;
}

inline FlatSize turned(const FlatSize& size) {
  return {size.length, size.width};
}

/// As both lie, without turning.
inline bool holds(const FlatSize& sheet, const FlatSize& piece) {
  return piece.width <= sheet.width && piece.length <= sheet.length;
}

struct SheetRules {
  std::vector<FlatSize> sizes;  ///< as bought
  Micrometres kerf = 0;         ///< width of one cut, between neighbouring pieces
  bool may_turn = false;        ///< a piece may be cut across the grain
};

/// Where a piece lies, from the sheet's corner; `size` is as placed, turned or not.
struct PlacedPiece {
  std::size_t piece = 0;  ///< index into the pieces given
  Micrometres x = 0;
  Micrometres y = 0;
  FlatSize size;
};

struct CutSheet {
  FlatSize sheet;
  std::vector<PlacedPiece> pieces;  ///< in the order placed
};

/// Whether a piece fits a sheet as it is or, where allowed, turned.
bool fits(const FlatSize& piece, const FlatSize& sheet, bool may_turn);

/// Places every piece once, without overlap, a kerf apart; cuts go from edge to edge of what they divide (guillotine).
/// Free rectangles are filled by best fit, for several orders of the pieces, rules of fit and of division and sizes to
/// open, once with one strategy for all sheets and once with the best for each sheet; the plan that buys the least area
/// is kept. Jylänki, A thousand ways to pack the bin, 2010 (from memory), for the rules. More than 5000 pieces are
/// nested in portions. Deterministic. Precondition: every piece fits a sheet.
std::vector<CutSheet> nest_sheets(const std::vector<FlatSize>& pieces, const SheetRules& rules);

/// Area in m² of the sheets bought.
double bought_area_m2(const std::vector<CutSheet>& sheets);

/// A proven lower bound in m² on the sheets to buy, for any way of cutting, guillotine or not. Each piece is given a
/// price such that no sheet holds pieces worth more than its own area: area with kerf over area of the sheet, or that
/// after dual feasible functions have stretched both sides (pieces over half a sheet count as a whole one, slivers as
/// none). Fekete and Schepers, A general framework for bounds for higher-dimensional orthogonal packing problems, 2004
/// (from memory). The sum is taken up to whole sheets. A piece that may be turned counts with its cheaper side.
/// Computed in double precision, less one part in 10⁹. Precondition: every piece fits a sheet.
double sheet_area_bound_m2(const std::vector<FlatSize>& pieces, const SheetRules& rules);

}  // namespace panel_dossier::quantities
