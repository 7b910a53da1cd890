// All structural checks of one panel.
#pragma once

#include <vector>

#include "core/api/plugin.h"
#include "plugins/structural/tables.h"
#include "plugins/structural/wind/facade.h"

namespace panel_dossier::structural {

/// Discipline, standards and caution.
PluginInfo plugin_info();

/// One finding for each structural check id that applies to a panel; pure and thread-safe. `facades` is the layout of
/// the project, of which the panel is one.
std::vector<Finding> check_panel(const Panel& panel, const Project& project, const Settings& settings,
                                 const Tables& tables, const FacadeLayout& facades);

/// As above, laying the façades out first; for one panel, not for all of a project.
std::vector<Finding> check_panel(const Panel& panel, const Project& project, const Settings& settings,
                                 const Tables& tables);

}  // namespace panel_dossier::structural
