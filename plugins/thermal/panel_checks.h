// All thermal checks of one panel.
#pragma once

#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/junctions/conduction_detail_result.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

/// In the order of the dossier. Pure and thread-safe.
std::vector<Finding> check_panel(const Panel& panel, const Project& project, const Settings& settings,
                                 const Tables& tables, conduction::DetailSolver& solver);

}  // namespace panel_dossier::thermal
