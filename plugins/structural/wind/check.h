// structural.wind_pressure: the characteristic wind pressure on a panel.
#pragma once

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/tables.h"
#include "plugins/structural/wind/facade.h"

namespace panel_dossier::structural {

inline constexpr const char* kWindPressureCheck = "structural.wind_pressure";

/// Symbol of the step with the pressure for a loaded area of 1 m², with which members and fixings are checked. Findings
/// with a given pressure or one coefficient have no such step.
inline constexpr const char* kPressureOnParts = "w_1";

/// Value in Pa, the larger of inward and outward pressure. Panel_Structure.DesignWindPressure of the export when given
/// (basis declared), beside which the zones' result stands where they are known; else qp(ze)·c with setting
/// `structural.wind.external_pressure_coefficient` when given; else by the zones the panel stands in. `not assessed`
/// names what is missing. `panel` is one of the project's, `facades` its layout.
Finding wind_pressure(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                      const FacadeLayout& facades);

}  // namespace panel_dossier::structural
