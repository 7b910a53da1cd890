// Findings of the whole project from those of its panels.
#pragma once

#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"
#include "plugins/carbon/tables.h"

namespace panel_dossier::carbon {

/// Every carbon check summed over the panels. A total over some panels only would mislead, so one panel without a value
/// leaves the total without one; the sum of the others is a step.
std::vector<Finding> total_project(const Project& project, const std::vector<PanelFindings>& panels,
                                   const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::carbon
