// The calculations that stand beside test evidence, as steps and tables of the same finding. They never decide a
// verdict.
#pragma once

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/fire/calculation/build_up.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// EN 1995-1-2 annex E with fire on either face along every way of heat, or a step that says why it is not calculated.
void add_separating_function(FindingBuilder& builder, const Panel& panel, const Project& project,
                             const Cassette& cassette, const Tables& tables);

/// EN 1995-1-2 3.4 and 4.2.2, annexes C and D, after `time_min` with fire on either face: char depth and remaining
/// section and, for a load-bearing panel, resistance against the load in fire.
void add_studs_in_fire(FindingBuilder& builder, const Panel& panel, const Project& project, const Settings& settings,
                       const Cassette& cassette, const Tables& tables, double time_min, bool load_bearing);

}  // namespace panel_dossier::fire
