// Temperature of the internal surface of the plain area: against the least factor, and against mould month by month.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/moisture/climate.h"
#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance/transmittance.h"

namespace panel_dossier::thermal {

/// f_Rsi = 1 − U · R_si, with U worked out for the same R_si in m²·K/W (EN ISO 13788:2012, 4.3).
double surface_temperature_factor(double u_w_per_m2k, double r_si);

/// Least factor of surface_factor_limits.csv for the jurisdiction and the uses of building and rooms, of which the
/// higher counts; that of the building may be missing beside that of the rooms. None when it is not known, which
/// `builder` then knows.
std::optional<double> least_surface_factor(const Settings& settings, const Tables& tables, FindingBuilder& builder);

/// What `least_surface_factor` reads.
std::vector<CheckInput> least_factor_inputs();

extern const CheckDeclaration kSurfaceTemperatureFactorCheck;
extern const CheckDeclaration kSurfaceCondensationCheck;

/// `thermal.surface_temperature_factor`: the plain area against the least factor of surface_factor_limits.csv for the
/// jurisdiction and the uses `thermal.surface_factor_use` and `project.use`.
Finding check_surface_temperature(const Panel& panel, const Settings& settings, const Tables& tables,
                                  const TransmittanceResult& panel_transmittance);

/// θ_si,min in °C: the surface temperature at which the internal air has this relative humidity (0.8 for mould, 1 for
/// condensation) at the surface (EN ISO 13788:2012, 5.3).
double least_surface_temperature_c(double internal_vapour_pressure_pa, double surface_humidity);

/// f_Rsi,min = (θ_si,min − θ_e) / (θ_i − θ_e); none when it is not warmer inside than outside by at least 1 K, for then
/// nothing makes the surface colder than the room.
std::optional<double> least_temperature_factor(const MonthClimate& month, double surface_humidity);

/// The month that asks most of the internal surface against mould, and the factor it asks for.
struct MouldDemand {
  std::size_t month = 0;  ///< from 0 for January
  double factor = 0.0;    ///< f_Rsi,min
};
/// None when no month is warmer inside than outside.
std::optional<MouldDemand> mould_demand(const YearClimate& climate);

/// `thermal.surface_condensation`: f_Rsi of the least insulated section of the plain area against the greatest monthly
/// f_Rsi,min for mould (EN ISO 13788:2012, 5.3).
Finding check_surface_condensation(const Panel& panel, const Settings& settings, const Tables& tables,
                                   const TransmittanceResult& panel_transmittance);

}  // namespace panel_dossier::thermal
