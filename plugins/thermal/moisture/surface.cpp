#include "plugins/thermal/moisture/surface.h"

#include <algorithm>
#include <numeric>
#include <string>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/fixed_text.h"
#include "plugins/thermal/junctions/surface_temperature.h"
#include "plugins/thermal/moisture/saturation.h"
#include "plugins/thermal/moisture/temperature_profile.h"

namespace panel_dossier::thermal {

namespace {

constexpr double kHumidityForMould = 0.8;

Value as_value(const std::optional<double>& number) {
  return number ? Value(*number) : Value(std::string("none"));
}

double surface_temperature_c(const MonthClimate& month, double factor) {
  return month.external_temperature_c + factor * (month.internal_temperature_c - month.external_temperature_c);
}

/// Relative humidity at the surface as a share of 1; above 1 the surface is wet.
double humidity_at_surface(const MonthClimate& month, double factor) {
  return month.internal_vapour_pressure_pa / saturation_pressure_pa(surface_temperature_c(month, factor));
}

void add_month_table(const YearClimate& climate, double factor, FindingBuilder& builder) {
  Table table{"Surface of the panel and temperature factor that each month needs against mould",
              {{"month", ""},
               {"θ_e", "°C"},
               {"θ_i", "°C"},
               {"p_i", "Pa"},
               {"θ_si,min", "°C"},
               {"f_Rsi,min", ""},
               {"θ_si of the panel", "°C"},
               {"φ_si of the panel", ""}},
              {}};
  double dampest = 0.0;
  for (std::size_t m = 0; m < kMonths; ++m) {
    const MonthClimate& month = climate[m];
    const double humidity = humidity_at_surface(month, factor);
    dampest = std::max(dampest, humidity);
    table.rows.push_back({std::string(kMonthNames[m]), month.external_temperature_c, month.internal_temperature_c,
                          month.internal_vapour_pressure_pa,
                          least_surface_temperature_c(month.internal_vapour_pressure_pa, kHumidityForMould),
                          as_value(least_temperature_factor(month, kHumidityForMould)),
                          surface_temperature_c(month, factor), humidity});
  }
  builder.step("highest relative humidity at the surface, of all months", "φ_si,max", dampest, "", "p_i / p_sat(θ_si)");
  builder.table(std::move(table));
}

void add_critical_month(const YearClimate& climate, const MouldDemand& demand, FindingBuilder& builder) {
  const MonthClimate& month = climate[demand.month];
  builder.step_text("critical month", std::string(kMonthNames[demand.month]));
  builder.step("vapour pressure of the external air", "p_e", month.external_vapour_pressure_pa, "Pa",
               "φ_e · p_sat(θ_e)");
  builder.step("vapour pressure of the internal air", "p_i", month.internal_vapour_pressure_pa, "Pa",
               "p_e + Δp, or φ_i · p_sat(θ_i)");
  builder.step("least temperature of the surface against mould", "θ_si,min",
               least_surface_temperature_c(month.internal_vapour_pressure_pa, kHumidityForMould), "°C",
               "p_sat(θ_si,min) = p_i / 0.8");
  builder.step("least temperature factor", "f_Rsi,min", demand.factor, "", "(θ_si,min − θ_e) / (θ_i − θ_e)");
}

/// f_Rsi of the least insulated section, with each step recorded.
double panel_factor(const Transmittance& t, double r_si, FindingBuilder& builder) {
  const auto paths = heat_paths(t.build_up.bridged);
  const std::size_t least = least_insulated(paths);
  const auto& resistances = paths[least].resistances;
  const double total = std::accumulate(resistances.begin(), resistances.end(), r_si + t.build_up.r_se_m2k_per_w);
  builder.step("resistance of the least insulated section (" +
                   section_name(t.build_up.bridged, t.build_up.bridged.sections[least]) + ")",
               "R_section", total, "m²·K/W", "R_si + ΣR + R_se");
  const double factor = surface_temperature_factor(1.0 / total, r_si);
  builder.step("its temperature factor, heat not spreading sideways", "f_Rsi", factor, "", "1 − R_si / R_section");
  return factor;
}

}  // namespace

double least_surface_temperature_c(double internal_vapour_pressure_pa, double surface_humidity) {
  return saturation_temperature_c(internal_vapour_pressure_pa / surface_humidity);
}

std::optional<double> least_temperature_factor(const MonthClimate& month, double surface_humidity) {
  constexpr double kLeastRise_k = 1.0;
  const double rise_k = month.internal_temperature_c - month.external_temperature_c;
  if (rise_k < kLeastRise_k) return std::nullopt;
  const double surface_c = least_surface_temperature_c(month.internal_vapour_pressure_pa, surface_humidity);
  return (surface_c - month.external_temperature_c) / rise_k;
}

std::optional<MouldDemand> mould_demand(const YearClimate& climate) {
  std::optional<MouldDemand> result;
  for (std::size_t m = 0; m < kMonths; ++m) {
    const auto factor = least_temperature_factor(climate[m], kHumidityForMould);
    if (factor && (!result || *factor > result->factor)) result = MouldDemand{m, *factor};
  }
  return result;
}

Finding check_surface_condensation(const Panel& panel, const Settings& settings, const Tables& tables,
                                   const TransmittanceResult& panel_transmittance) {
  FindingBuilder builder("thermal.surface_condensation", "Mould and condensation on the internal surface, plain area",
                         panel.global_id, "EN ISO 13788:2012, 5.3");
  if (!panel_transmittance.transmittance) {
    return builder.not_assessed("thermal.u_value is not assessed: " + panel_transmittance.u_value.reason);
  }
  const auto r_si = builder.positive("internal surface resistance for mould growth", "R_si", "m²·K/W",
                                     tables.surface_resistances.number("inside_mould", "resistance_m2k_per_w"),
                                     "surface_resistances.csv has no row 'inside_mould'");
  const auto climate = read_climate(settings, tables, builder);
  if (!r_si || !climate) return builder.not_assessed();
  const auto demand = mould_demand(*climate);
  if (!demand) return builder.not_assessed("no month is warmer inside than outside");
  add_critical_month(*climate, *demand, builder);
  const double factor = panel_factor(*panel_transmittance.transmittance, *r_si, builder);
  add_month_table(*climate, factor, builder);
  builder.note(
      "Plain area only: corners, reveals and joints stand under thermal.junction_temperature_factor. No margin is "
      "added to the internal humidity beyond the upper boundary of its class.");
  return builder.judge(factor, "", Relation::at_least, demand->factor,
                       "factor " + fixed_text(factor, 3) + " is below the " + fixed_text(demand->factor, 3) + " of " +
                           std::string(kMonthNames[demand->month]) +
                           ": mould may grow on the surface; the panel needs more insulation or the room drier air");
}

}  // namespace panel_dossier::thermal
