// Findings of the whole project from those of its panels.
#pragma once

#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

/// `thermal.u_value` (area-weighted average against the limit of the jurisdiction) and `thermal.heat_loss` (sum, with
/// its parts by type of panel). A total over some panels only would mislead, so one panel without a value makes the
/// total not assessed; the sum of the others is a step.
std::vector<Finding> total_project(const Project& project, const std::vector<PanelFindings>& panels,
                                   const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::thermal
