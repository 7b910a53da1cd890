// Heat through the junctions of a panel and of the project, and their surface temperatures.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"
#include "plugins/thermal/junctions/conduction_detail_result.h"
#include "plugins/thermal/junctions/junction_heat.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

/// What the details of the junctions are drawn up from, and the U-value behind them.
std::vector<CheckInput> junction_inputs();

extern const CheckDeclaration kLinearTransmittanceCheck;
extern const CheckDeclaration kJunctionTemperatureFactorCheck;

/// `thermal.linear_transmittance`: Σ Ψ·l + Σ χ of the panel in W/K, with a row a junction (EN ISO 10211:2017).
/// `heat` is null when thermal.u_value is not assessed; `why_not` then says why.
Finding check_linear_transmittance(const Panel& panel, const PanelJunctionHeat* heat, const std::string& why_not);

/// `thermal.junction_temperature_factor`: the lowest f_Rsi of the junctions against the least factor of the
/// jurisdiction.
Finding check_junction_temperature(const Panel& panel, const Settings& settings, const Tables& tables,
                                   const PanelJunctionHeat* heat, const std::string& why_not);

/// `thermal.linear_transmittance` of the project in W/K: the panels' sum, a row and a drawing for each distinct detail
/// in the order of the panels. `panels` holds the findings of the thermal checks.
Finding register_junctions(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                           const Tables& tables, conduction::DetailSolver& solver);

}  // namespace panel_dossier::thermal
