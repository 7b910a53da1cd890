// The checks of lifting a panel, turning it up, the crane and the vehicle.
#pragma once

#include <optional>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/support/site_place.h"
#include "plugins/structural/studs/stud_design.h"
#include "plugins/structural/tables.h"

namespace panel_dossier::structural {

extern const CheckDeclaration kLiftingCheck;
extern const CheckDeclaration kTurningUpCheck;
extern const CheckDeclaration kCraneCapacityCheck;
extern const CheckDeclaration kTransportSizeCheck;

/// Pull in the hardest pulled leg against its share of the working load limits, in kN.
Finding lifting(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables);

/// Bending of the studs while the panel is turned from lying flat to upright, in N/mm²; `information` in a frame.
Finding turning_up(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                   const StudDesign& design);

/// Mass with lifting gear against the crane's table at the panel's radius from the nearest of `stands`, in kg.
Finding crane_capacity(const Panel& panel, const Project& project, const Settings& settings,
                       const std::vector<SitePlace>& stands);

/// The largest share of the vehicle's length, height and payload that the panel takes,
/// standing upright on its long side. Limits from the settings `structural.transport.*`.
Finding transport_size(const Panel& panel, const Project& project, const Settings& settings);

}  // namespace panel_dossier::structural
