// Fasteners of a panel by what they do, as their ObjectType says.
#pragma once

#include <vector>

#include "core/api/model/panel.h"

namespace panel_dossier {

/// Brackets, anchors and bolts that hold the panel to the frame, by their ObjectType.
bool holds_panel(const Part& part);

/// Loops, straps and anchors that the panel is lifted by: ObjectType with the word LIFTING.
bool lifts_panel(const Part& part);

/// Connectors that hold the end of a wall down against uplift from racking: ObjectType with the words TIE DOWN or HOLD
/// DOWN, joined by a blank, a hyphen or an underscore.
bool ties_down(const Part& part);

/// The fasteners of a panel for which `does` holds, in the export's order.
std::vector<const Part*> fasteners_that(const Panel& panel, bool (*does)(const Part&));

}  // namespace panel_dossier
