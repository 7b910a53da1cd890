// All carbon checks of one panel.
#pragma once

#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/carbon/tables.h"

namespace panel_dossier::carbon {

/// In the order of the modules. Pure and thread-safe.
std::vector<Finding> check_panel(const Panel& panel, const Project& project, const Settings& settings,
                                 const Tables& tables);

}  // namespace panel_dossier::carbon
