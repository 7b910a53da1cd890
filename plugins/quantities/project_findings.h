// All project findings of the discipline.
#pragma once

#include <vector>

#include "core/api/plugin.h"

namespace panel_dossier::quantities {

/// Totals of area, mass, pieces, fixings, loads and erection time under the panels' check ids, the
/// measures by material and storey, and the yields of bars and sheets.
std::vector<Finding> project_findings(const Project& project, const std::vector<PanelFindings>& panels,
                                      const Settings& settings);

}  // namespace panel_dossier::quantities
