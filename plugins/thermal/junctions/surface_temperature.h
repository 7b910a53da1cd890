// Temperature factor at the internal surface of the plain area of a panel.
#pragma once

#include <optional>

#include "core/api/finding/finding.h"
#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance/transmittance.h"

namespace panel_dossier::thermal {

/// f_Rsi = 1 − U · R_si, with U worked out for the same R_si in m²·K/W (EN ISO 13788:2012, 4.3).
double surface_temperature_factor(double u_w_per_m2k, double r_si);

/// Least factor of surface_factor_limits.csv for the jurisdiction and the use of the rooms; none when it is not known,
/// which `builder` then knows.
std::optional<double> least_surface_factor(const Settings& settings, const Tables& tables, FindingBuilder& builder);

/// `thermal.surface_temperature_factor`: the plain area against the least factor of surface_factor_limits.csv for the
/// jurisdiction and the use of the rooms, which is `thermal.surface_factor_use` or else `project.use`.
Finding check_surface_temperature(const Panel& panel, const Settings& settings, const Tables& tables,
                                  const TransmittanceResult& panel_transmittance);

}  // namespace panel_dossier::thermal
