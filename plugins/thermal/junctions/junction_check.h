// Linear transmittances and surface temperatures of a panel's junctions.
#pragma once

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/junctions/junction_heat.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

/// `thermal.linear_transmittance`: Σ Ψ·l + Σ χ of the panel in W/K, with a row a junction (EN ISO 10211:2017).
/// `heat` is null when thermal.u_value is not assessed; `reason` then says why.
Finding check_linear_transmittance(const Panel& panel, const PanelJunctionHeat* heat, const std::string& reason);

/// `thermal.junction_temperature_factor`: the lowest f_Rsi of the junctions against the least factor of the
/// jurisdiction.
Finding check_junction_temperature(const Panel& panel, const Settings& settings, const Tables& tables,
                                   const PanelJunctionHeat* heat, const std::string& reason);

}  // namespace panel_dossier::thermal
