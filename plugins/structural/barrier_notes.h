// What the load of persons on a barrier does not reach.
#pragma once

#include "core/api/finding.h"
#include "plugins/structural/stud_design.h"

namespace panel_dossier::structural {

/// Adds to a finding on what holds the studs that persons leaning on the panel are not in it; nothing for a panel that
/// is no barrier.
void note_barrier(Finding& finding, const StudDesign& design);

}  // namespace panel_dossier::structural
