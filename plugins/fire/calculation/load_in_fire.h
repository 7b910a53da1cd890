// The load in fire on each metre of a panel: EN 1995-1-2:2004 2.4.2.
#pragma once

#include <optional>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// Design load in fire in N/m, with its steps and a note on wind, by the partial factors of the national annex; none,
/// with a step that says why, when something is missing, the annex has no row in load_factors.csv, the ratio
/// fire.load_ratio_in_fire is not above 0 and at most 1, or a load is negative.
std::optional<double> load_in_fire_n_per_m(FindingBuilder& builder, const Panel& panel, const Project& project,
                                           const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::fire
