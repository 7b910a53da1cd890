// structural.wind_pressure: the characteristic wind pressure on a panel.
#pragma once

#include "core/api/finding.h"
#include "core/api/project.h"
#include "core/api/settings.h"
#include "plugins/structural/tables.h"

namespace panel_dossier::structural {

/// Value in Pa. Panel_Structure.DesignWindPressure of the export when given (basis declared), else qp(ze)·c from the
/// settings `structural.wind.*` and `building.height_m`. `not assessed` names what is missing.
Finding wind_pressure(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::structural
