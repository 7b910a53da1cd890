// The junction details of a project, each once, with their isotherms.
#pragma once

#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"
#include "plugins/thermal/junctions/conduction_detail_result.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

/// `thermal.linear_transmittance` of the project in W/K: the panels' sum, a row and a drawing for each distinct detail
/// in the order of the panels. `panels` holds the findings of the thermal checks.
Finding register_junctions(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                           const Tables& tables, conduction::DetailSolver& solver);

}  // namespace panel_dossier::thermal
