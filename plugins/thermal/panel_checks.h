// All thermal checks of one panel.
#pragma once

#include <vector>

#include "core/api/finding.h"
#include "core/api/panel.h"
#include "core/api/project.h"
#include "core/api/settings.h"
#include "plugins/thermal/conduction_detail_result.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

/// In the order of the dossier. Pure and thread-safe.
std::vector<Finding> check_panel(const Panel& panel, const Project& project, const Settings& settings,
                                 const Tables& tables, conduction::DetailSolver& solver);

}  // namespace panel_dossier::thermal
