// Reads what annex B of EN 1995-1-1 needs of every stud of a panel.
#pragma once

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/studs/composite_stud.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

/// Setting structural.composite_sheathing is there and not `neglected`.
bool composite_asked(const Settings& settings);

/// Setting structural.composite_sheathing: `neglected`, also without it, or `annex B`. Preconditions: `design.missing`
/// is empty and `design.systems` has one entry a member. Missing data are named in the result.
CompositeDesign read_composite(const Panel& panel, const Project& project, const Settings& settings,
                               const Tables& tables, const StudDesign& design);

}  // namespace panel_dossier::structural
