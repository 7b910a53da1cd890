// What the materials of panels cost, at rates that the settings give.
#pragma once

#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/plugin.h"

namespace panel_dossier::quantities {

/// `quantities.costs`: net amount of each material times its rate, in the currency of the rates. `not assessed`, with
/// the sum of what is priced as step `K_p`, when a material of the panel has no rate or cannot be measured in the unit
/// of its rate; those are named.
Finding costs(const Panel& panel, const Project& project, const Settings& settings);

/// The sum over the panels with their tables merged; as long as any is not assessed, the sum of what is priced as a
/// step.
Finding project_costs(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings);

}  // namespace panel_dossier::quantities
