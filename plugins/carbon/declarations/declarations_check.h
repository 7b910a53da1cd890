// The declarations behind the account, and what they state beyond global warming.
#pragma once

#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/plugin.h"
#include "plugins/carbon/run_inputs.h"

namespace panel_dossier::carbon {

extern const CheckDeclaration kDeclarationsCheck;

/// One row a material that the panels hold with its document, validity, geography and kind of data; the other core
/// indicators of EN 15804 of those declared in a file, over the amount in all panels; and declared A4 and A5 beside
/// those of the project.
Finding declarations_of_project(const RunInputs& inputs, const std::vector<PanelFindings>& panels);

}  // namespace panel_dossier::carbon
