// The separating function beside test evidence, as steps and tables of the same finding. It never decides a verdict.
#pragma once

#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "plugins/fire/calculation/cassette.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// EN 1995-1-2 annex E with fire on either face along every way of heat, or a step that says why it is not calculated.
void add_separating_function(FindingBuilder& builder, const Panel& panel, const Project& project,
                             const Cassette& cassette, const Tables& tables);
/// What it reads beside the cassette.
std::vector<CheckInput> separating_function_inputs();

}  // namespace panel_dossier::fire
