// All project findings of the discipline.
#pragma once

#include <vector>

#include "core/api/plugin.h"

namespace panel_dossier::quantities {

/// Totals of area, mass, pieces, fixings, loads and erection time under the panels' check ids, and the stock yield.
std::vector<Finding> project_findings(const Project& project, const std::vector<PanelFindings>& panels,
                                      const Settings& settings);

}  // namespace panel_dossier::quantities
