// structural.wind_pressure of the whole project: the largest pressure, and each façade with its zones.
#pragma once

#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/plugin.h"
#include "plugins/structural/wind/facade.h"

namespace panel_dossier::structural {

/// Value in Pa: the largest of the panels' findings structural.wind_pressure. `not assessed` when no panel has one;
/// panels without one are named in a note.
Finding project_wind_pressure(const Project& project, const std::vector<PanelFindings>& panels,
                              const Settings& settings, const FacadeLayout& facades);

}  // namespace panel_dossier::structural
