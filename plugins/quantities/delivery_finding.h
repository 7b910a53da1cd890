// The deliveries of the project.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding.h"
#include "core/api/plugin.h"
#include "plugins/quantities/delivery_order.h"

namespace panel_dossier::quantities {

/// `quantities.deliveries`: number of vehicle loads, with tables of loads and panels, pictures of the first loads and
/// plans by storey. Masses and centres of gravity are those of the panels' own findings. `dates` is by panel, empty
/// when there is no programme.
Finding deliveries(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                   const ErectionSequence& sequence, const std::vector<std::string>& dates);

/// The findings of the site: `quantities.deliveries` and `quantities.programme`.
std::vector<Finding> site_findings(const Project& project, const std::vector<PanelFindings>& panels,
                                   const Settings& settings);

}  // namespace panel_dossier::quantities
