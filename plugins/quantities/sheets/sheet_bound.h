// Area of sheets that no way of cutting can save.
#pragma once

#include <vector>

#include "plugins/quantities/sheets/sheet_nesting.h"

namespace panel_dossier::quantities {

/// A proven lower bound in m² on the sheets to buy, for any way of cutting, guillotine or not. Each piece is given a
/// price such that no sheet holds pieces worth more than its own area: area with kerf over area of the sheet, or that
/// after dual feasible functions have stretched both sides (pieces over half a sheet count as a whole one, slivers as
/// none). Fekete and Schepers, A general framework for bounds for higher-dimensional orthogonal packing problems, 2004
/// (from memory). The sum is taken up to whole sheets. A piece that may be turned counts with its cheaper side.
/// Computed in double precision, less one part in 10⁹. Precondition: every piece fits a sheet.
double sheet_area_bound_m2(const std::vector<FlatSize>& pieces, const SheetRules& rules);

}  // namespace panel_dossier::quantities
