// Lifting points, turning a panel up, and the crane.
#pragma once

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/studs/stud_design.h"
#include "plugins/structural/tables.h"

namespace panel_dossier::structural {

/// `structural.lifting`: pull in the hardest pulled leg against its share of the working load limits, in kN.
Finding lifting(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables);

/// `structural.turning_up`: bending of the studs while the panel is turned from lying flat to upright, in N/mm²
/// (EN 1995-1-1:2004 6.1.6, load duration short).
Finding turning_up(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                   const StudDesign& design);

/// `structural.crane_capacity`: mass with lifting gear against the crane's table at the panel's radius, in kg.
Finding crane_capacity(const Panel& panel, const Project& project, const Settings& settings);

}  // namespace panel_dossier::structural
