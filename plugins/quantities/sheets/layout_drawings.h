// Cutting sheets: the layouts of a sheet plan as drawings, and what is left of a sheet when its pieces are cut.
#pragma once

#include <vector>

#include "core/api/finding/drawing.h"
#include "plugins/quantities/sheets/sheet_layouts.h"
#include "plugins/quantities/sheets/sheet_nesting.h"

namespace panel_dossier::quantities {

/// A rectangle of the sheet that no piece takes; `x` and `y` from the sheet's corner.
struct Offcut {
  Micrometres x = 0;
  Micrometres y = 0;
  FlatSize size;
};

/// The rectangles that fall off as the sheet is cut from edge to edge, a kerf wide each cut; without those that the
/// saw turns to dust. In the order of cutting, lower and left first. Precondition: the pieces can be parted by cuts
/// from edge to edge, as `nest_sheets` places them.
std::vector<Offcut> offcuts_of(const CutSheet& cut, Micrometres kerf);

/// The layouts that `layouts_drawn` chooses. Pieces bear panel and part mark as on their labels, `+2` when two more
/// parts lie there on the other sheets of the layout. Pieces of the panel whose piece is the largest are plain; those
/// of other panels, cut from what it leaves, are hatched; what is left over is crossed. Dimensions are of the sheet and
/// of the pieces along its lower and left edge.
std::vector<Drawing> layout_drawings(const Project& project, const std::vector<SheetPlan>& plans);

}  // namespace panel_dossier::quantities
