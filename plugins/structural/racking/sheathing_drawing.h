// The fixing of two sheets along their joint on a stud.
#pragma once

#include "core/api/finding/drawing.h"
#include "plugins/structural/racking/sheathing_face.h"

namespace panel_dossier::structural {

/// Elevation of a stretch of the stud with the sheets' edges, the fasteners and their distances in mm.
Drawing edge_detail(const SheathingFace& face);

}  // namespace panel_dossier::structural
