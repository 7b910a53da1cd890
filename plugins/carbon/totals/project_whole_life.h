// The whole life of all panels, by module, by material and by panel type.
#pragma once

#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"

namespace panel_dossier::carbon {

/// `carbon.whole_life` of the project: the sum of the panels' tables, a table by panel type, and two bar charts.
Finding whole_life_of_project(const Project& project, const std::vector<PanelFindings>& panels,
                              const Settings& settings);

}  // namespace panel_dossier::carbon
