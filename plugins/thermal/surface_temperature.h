// Temperature factor at the internal surface of the plain area of a panel.
#pragma once

#include "core/api/finding.h"
#include "core/api/panel.h"
#include "core/api/settings.h"
#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance.h"

namespace panel_dossier::thermal {

/// f_Rsi = 1 − U · R_si, with U worked out for the same R_si in m²·K/W (EN ISO 13788:2012, 4.3).
double surface_temperature_factor(double u_w_per_m2k, double r_si);

/// `thermal.surface_temperature_factor`: the plain area against the least factor of surface_factor_limits.csv for the
/// jurisdiction and the use of the rooms, which is `thermal.surface_factor_use` or else `project.use`.
Finding check_surface_temperature(const Panel& panel, const Settings& settings, const Tables& tables,
                                  const TransmittanceResult& panel_transmittance);

}  // namespace panel_dossier::thermal
