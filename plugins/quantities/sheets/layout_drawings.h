// Cutting sheets: the layouts of a sheet plan as drawings.
#pragma once

#include <vector>

#include "core/api/finding/drawing.h"
#include "plugins/quantities/sheets/sheet_layouts.h"

namespace panel_dossier::quantities {

/// The layouts that `layouts_drawn` chooses. Pieces bear panel and part mark as on their labels, `+2` when two more
/// parts lie there on the other sheets of the layout. Pieces of the panel whose piece is the largest are plain; those
/// of other panels, cut from what it leaves, are hatched; what is left over is crossed. Dimensions are of the sheet and
/// of the pieces along its lower and left edge.
std::vector<Drawing> layout_drawings(const std::vector<SheetPlan>& plans);

}  // namespace panel_dossier::quantities
