// The declarations behind the account, and what they state beyond global warming.
#pragma once

#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/plugin.h"
#include "plugins/carbon/tables.h"

namespace panel_dossier::carbon {

/// `carbon.declarations`: one row a material that the panels hold with its document, validity, geography and kind of
/// data, and the other core indicators of EN 15804 of those declared in a file, over the amount in all panels.
Finding declarations_of_project(const Project& project, const std::vector<PanelFindings>& panels, const Tables& tables);

}  // namespace panel_dossier::carbon
