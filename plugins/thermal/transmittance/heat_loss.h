// Heat transfer coefficient of a panel with its windows, doors and junctions.
#pragma once

#include <string>

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "plugins/thermal/junctions/junction_heat.h"

namespace panel_dossier::thermal {

/// Symbols of the steps that hold the parts of the coefficient, in W/K.
inline constexpr const char* kPlainHeat = "U · A_net";
inline constexpr const char* kFillingHeat = "ΣU_w · A_w";
inline constexpr const char* kLineHeat = "ΣΨ · l";
inline constexpr const char* kPointHeat = "Σχ";

/// `thermal.heat_loss` in W/K: U·A of the net area and of each window and door, Ψ·l of the junctions and χ of corners
/// (EN ISO 13789:2017, 7.2). `heat` is null when thermal.u_value is not assessed; `reason` then says why.
Finding check_heat_loss(const Panel& panel, const PanelJunctionHeat* heat, const std::string& reason);

}  // namespace panel_dossier::thermal
