// Heat transfer coefficient of a panel with its windows, doors and junctions, and of all panels.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/plugin.h"
#include "plugins/thermal/junctions/junction_heat.h"

namespace panel_dossier::thermal {

/// A panel's finding gives `plain_area`, `windows_and_doors`, `junctions` and `corners_at_floors` in W/K by id.
extern const CheckDeclaration kHeatLossCheck;

/// `thermal.heat_loss` in W/K: U·A of the net area and of each window and door, Ψ·l of the junctions and χ of corners
/// (EN ISO 13789:2017, 7.2). `heat` is null when thermal.u_value is not assessed; `why_not` then says why.
Finding check_heat_loss(const Panel& panel, const PanelJunctionHeat* heat, const std::string& why_not);

/// `thermal.heat_loss` of the project: the sum of the panels and its parts, by type of panel. A sum over some panels
/// only would mislead, so one panel without a value makes it not assessed; the sum of the others is a step.
Finding total_heat_loss(const Project& project, const std::vector<PanelFindings>& panels);

}  // namespace panel_dossier::thermal
