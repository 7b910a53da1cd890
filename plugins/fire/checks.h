// All fire checks: what they say of themselves, and their findings.
#pragma once

#include <vector>

#include "core/api/plugin.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// Discipline, standards and caution.
PluginInfo plugin_info();

/// In the order of the dossier.
const std::vector<CheckDeclaration>& checks();

/// One finding for each fire check of panels; pure and thread-safe.
std::vector<Finding> check_panel(const Panel& panel, const Project& project, const Settings& settings,
                                 const Tables& tables);

/// Findings of the project: schedule of cavity barriers, and combustible mass during construction.
std::vector<Finding> check_project(const Project& project, const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::fire
