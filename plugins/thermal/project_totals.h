// Findings of the whole project from those of its panels.
#pragma once

#include <vector>

#include "core/api/finding.h"
#include "core/api/plugin.h"
#include "core/api/project.h"

namespace panel_dossier::thermal {

/// `thermal.u_value` (area-weighted average, as information) and `thermal.heat_loss` (sum). A total over some panels
/// only would mislead, so one panel without a value makes the total not assessed; the sum of the others is a step.
std::vector<Finding> total_project(const Project& project, const std::vector<PanelFindings>& panels);

}  // namespace panel_dossier::thermal
