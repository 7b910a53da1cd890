// What is left of a sheet when its pieces are cut.
#pragma once

#include <vector>

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

}  // namespace panel_dossier::quantities
