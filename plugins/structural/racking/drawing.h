// The elevation of a panel under its racking load.
#pragma once

#include "core/api/finding/drawing.h"
#include "core/api/model/panel.h"
#include "plugins/structural/racking/design.h"

namespace panel_dossier::structural {

/// From inside: the sheets that count hatched, with the spacing of their fasteners, the load to the right at the head,
/// tie-down and compression at the foot in kN. Precondition: the design has strips.
Drawing racking_elevation(const Panel& panel, const RackingDesign& racking);

}  // namespace panel_dossier::structural
