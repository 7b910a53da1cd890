// Measured air permeability of a panel.
#pragma once

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

/// `thermal.air_permeability`: Panel_Air.PermeabilityQ50 in m³/(h·m²) against the setting
/// `thermal.design_q50_m3_per_hm2`, else the limit of the jurisdiction. `evidence needed` without a measured value.
Finding check_air_permeability(const Panel& panel, const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::thermal
