// All thermal checks: what is declared, and what a panel and the project give.
#pragma once

#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"
#include "plugins/thermal/junctions/conduction_detail_result.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

/// In the order of the dossier.
const std::vector<CheckDeclaration>& checks();

/// Every check of panels for one panel. Pure and thread-safe.
CheckOutcome check_panel(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                         conduction::DetailSolver& solver);

/// Every check of the project; `panels` holds the thermal findings of its panels.
CheckOutcome check_project(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                           const Tables& tables, conduction::DetailSolver& solver);

}  // namespace panel_dossier::thermal
