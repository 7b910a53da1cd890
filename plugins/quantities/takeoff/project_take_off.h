// The measures of all panels, by material and by storey.
#pragma once

#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/plugin.h"

namespace panel_dossier::quantities {

/// `quantities.take_off` of the project: volume of all panels, with the panels' tables merged, as a whole and by
/// storey.
Finding project_take_off(const Project& project, const std::vector<PanelFindings>& panels);

}  // namespace panel_dossier::quantities
