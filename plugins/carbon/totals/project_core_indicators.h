// Core indicators beside global warming, for all panels.
#pragma once

#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/plugin.h"
#include "plugins/carbon/tables.h"

namespace panel_dossier::carbon {

/// `carbon.core_indicators`: the sum of the panels' findings to the last digit, for each m² of net wall, and by type.
Finding core_indicators_of_project(const Project& project, const std::vector<PanelFindings>& panels,
                                   const Tables& tables);

}  // namespace panel_dossier::carbon
