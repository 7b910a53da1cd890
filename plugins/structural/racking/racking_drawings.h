// The elevation of a panel under its racking load, and the fixing of its sheets along a joint.
#pragma once

#include "core/api/finding/drawing.h"
#include "core/api/model/panel.h"
#include "plugins/structural/racking/racking_design.h"
#include "plugins/structural/racking/sheathing_face.h"

namespace panel_dossier::structural {

/// From inside: the sheets that count hatched, with the spacing of their fasteners, the load to the right at the head,
/// tie-down and compression at the foot in kN. Precondition: the design has strips.
Drawing racking_elevation(const Panel& panel, const RackingDesign& racking);

/// Elevation of a stretch of the stud with the sheets' edges, the fasteners and their distances in mm.
Drawing edge_detail(const SheathingFace& face);

}  // namespace panel_dossier::structural
