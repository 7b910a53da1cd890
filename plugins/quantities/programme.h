// The erection programme of the project, day by day.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding.h"
#include "core/api/plugin.h"
#include "plugins/quantities/delivery_order.h"

namespace panel_dossier::quantities {

struct Programme {
  Finding finding;                 ///< `quantities.programme`: working days
  std::vector<std::string> dates;  ///< of erection by panel, `YYYY-MM-DD`; empty when the finding is not assessed
};

/// Panels in the given sequence on the cranes and working days of the settings, from the hours that
/// `quantities.erection_time` gave each panel.
Programme plan_programme(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                         const ErectionSequence& sequence);

}  // namespace panel_dossier::quantities
