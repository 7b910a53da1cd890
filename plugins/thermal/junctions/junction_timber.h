// The panel without the timber that its junctions stand for, so that no timber counts twice.
#pragma once

#include "core/api/model/panel.h"
#include "plugins/thermal/junctions/conduction_detail.h"
#include "plugins/thermal/junctions/junctions.h"

namespace panel_dossier::thermal {

/// A copy in which studs, posts, rails, lintels and blocking are cut away wherever a junction with a detail or a
/// declared Ψ holds them: to the depth of `timber` behind an edge, and beside an opening along its own length only.
/// Parts without a box stay. Pieces that are left have a box and no solid; of a part
/// that is wholly cut away an empty box is left.
Panel without_junction_timber(const Panel& panel, const Junctions& junctions, const conduction::DetailBuildUp& timber);

}  // namespace panel_dossier::thermal
