// The studs in fire beside test evidence, as steps and tables of the same finding, in the order in which a person
// redoes them. They never decide a verdict.
#pragma once

#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/fire/calculation/cassette.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// EN 1995-1-2 3.4 and 4.2.2, annexes C and D, after `time_min` with fire on either face: char depth and remaining
/// section and, for a load-bearing panel, resistance against the load in fire; or a step that says why not. Symbols of
/// one side of the fire end with `,in` or `,out`.
void add_studs_in_fire(FindingBuilder& builder, const Panel& panel, const Project& project, const Settings& settings,
                       const Cassette& cassette, const Tables& tables, double time_min, bool load_bearing);
/// What it reads beside the cassette.
std::vector<CheckInput> studs_in_fire_inputs();

}  // namespace panel_dossier::fire
