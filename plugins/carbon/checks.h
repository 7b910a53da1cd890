// All checks of the discipline: what they are, and their findings of a panel and of the project.
#pragma once

#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/plugin.h"
#include "plugins/carbon/run_inputs.h"

namespace panel_dossier::carbon {

/// In the order of the dossier.
const std::vector<CheckDeclaration>& checks();

/// Every check of one panel. Pure and thread-safe.
CheckOutcome check_panel(const Panel& panel, const RunInputs& inputs);

/// Every check of the project, from the findings of its panels. A total over some panels only would mislead, so one
/// panel without a value leaves the total without one; the sum of the others is a step.
CheckOutcome check_project(const RunInputs& inputs, const std::vector<PanelFindings>& panels);

}  // namespace panel_dossier::carbon
