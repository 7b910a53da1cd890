#include "plugins/thermal/moisture/surface.h"

#include <algorithm>
#include <string>
#include <utility>

#include "core/api/support/words.h"
#include "plugins/thermal/check_inputs.h"
#include "plugins/thermal/moisture/climate.h"

namespace panel_dossier::thermal {

namespace {

/// f_Rsi of the least insulated section under the symbol `symbol`, with its resistance.
double add_least_section(const Transmittance& t, double r_si, const char* symbol, FindingBuilder& builder) {
  const auto paths = heat_paths(t.build_up.bridged);
  const std::size_t least = least_insulated(paths);
  const double total = resistance_along(paths[least], r_si, t.build_up.r_se_m2k_per_w);
  builder.step("resistance of the least insulated section (" +
                   section_name(t.build_up.bridged, t.build_up.bridged.sections[least]) + "), R_si, layers and R_se",
               "R_section", total, "m²·K/W");
  const double factor = surface_temperature_factor(1.0 / total, r_si);
  builder.step("its temperature factor, heat not spreading sideways", symbol, factor, "",
               std::string(symbol) + " = 1 − R_si / R_section");
  return factor;
}

std::optional<double> mould_resistance(const Tables& tables, FindingBuilder& builder) {
  return builder.positive("internal surface resistance for mould growth", "R_si", "m²·K/W",
                          tables.surface_resistances.number("inside_mould", "resistance_m2k_per_w"),
                          "surface_resistances.csv has no row 'inside_mould'");
}

/// Of a check of the surface: `shared`, the surface resistance, and the U-value behind it.
std::vector<CheckInput> surface_inputs(std::vector<CheckInput> shared) {
  shared.push_back(data_table("surface_resistances.csv"));
  return resting_on(std::move(shared), transmittance_inputs());
}

/// The row for this place whose use is `use` or left open.
std::optional<std::string> row_for(const DataTable& limits, const std::string& jurisdiction, const std::string& use) {
  for (const std::string& row : limits.keys()) {
    const auto place = limits.text(row, "jurisdiction");
    const auto uses = limits.text(row, "use");
    const bool any_use = !uses || uses->value.empty();
    if (place && place->value == jurisdiction && (any_use || uses->value == use)) return row;
  }
  return std::nullopt;
}

std::optional<double> factor_for(const DataTable& limits, const std::string& jurisdiction, const std::string& use,
                                 FindingBuilder& builder) {
  const auto row = row_for(limits, jurisdiction, use);
  if (!row) {
    builder.missing("surface_factor_limits.csv holds no limit for '" + use + "' in '" + jurisdiction +
                    "' (settings project.jurisdiction, project.use, thermal.surface_factor_use)");
    return std::nullopt;
  }
  return builder.positive("least temperature factor at the internal surface, " + use, "f_Rsi,limit", "",
                          limits.number(*row, "factor_min"),
                          "surface_factor_limits.csv row '" + *row + "' has no number in factor_min");
}

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
               {"θ_si", "°C"},
               {"φ_si", ""}},
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
  builder.step("highest relative humidity at the surface, of all months", "φ_si,max", dampest, "",
               "φ_si,max = max(φ_si)");
  builder.table(std::move(table));
}

void add_critical_month(const YearClimate& climate, const MouldDemand& demand, FindingBuilder& builder) {
  const MonthClimate& month = climate[demand.month];
  builder.step_text("critical month", std::string(kMonthNames[demand.month]));
  builder.step("its external temperature", "θ_e,m", month.external_temperature_c, "°C");
  builder.step("its internal temperature", "θ_i,m", month.internal_temperature_c, "°C");
  builder.step("vapour pressure of the external air, φ_e times saturation", "p_e", month.external_vapour_pressure_pa,
               "Pa");
  builder.step("vapour pressure of the internal air, p_e with the excess of the humidity class or φ_i times saturation",
               "p_i", month.internal_vapour_pressure_pa, "Pa");
  builder.step("least temperature of the surface against mould, at which p_i is 80 % of saturation", "θ_si,min",
               least_surface_temperature_c(month.internal_vapour_pressure_pa, kHumidityForMould), "°C",
               "θ_si,min = " + saturation_temperature_formula(month.internal_vapour_pressure_pa / kHumidityForMould,
                                                              "p_i / " + fixed_text(kHumidityForMould, 1)));
  builder.step("least temperature factor", "f_Rsi,min", demand.factor, "",
               "f_Rsi,min = (θ_si,min − θ_e,m) / (θ_i,m − θ_e,m)");
}

}  // namespace

std::optional<double> least_surface_factor(const Settings& settings, const Tables& tables, FindingBuilder& builder) {
  const auto jurisdiction = builder.text("jurisdiction", settings.text("project.jurisdiction"),
                                         "setting 'project.jurisdiction' is missing, so no limit is known");
  const auto rooms = settings.text("thermal.surface_factor_use");
  const auto use = settings.text("project.use");
  if (rooms) builder.text("use of the rooms", rooms, "setting 'thermal.surface_factor_use' is empty");
  if (use || !rooms) {
    builder.text("use of the building", use, "setting 'project.use' is missing, so no limit is known");
  }
  if (!jurisdiction || builder.incomplete()) return std::nullopt;
  const auto of_rooms =
      rooms ? factor_for(tables.surface_factor_limits, *jurisdiction, rooms->value, builder) : std::nullopt;
  if (rooms && !of_rooms) return std::nullopt;
  // Rooms of a use of their own stand in the building: they may ask for more than it, not for less.
  const bool of_building_known = use && row_for(tables.surface_factor_limits, *jurisdiction, use->value);
  if (rooms && !of_building_known) return of_rooms;
  const auto of_building = factor_for(tables.surface_factor_limits, *jurisdiction, use->value, builder);
  if (!of_building) return std::nullopt;
  return std::max(*of_building, of_rooms.value_or(0.0));
}

std::vector<CheckInput> least_factor_inputs() {
  return {setting("project.jurisdiction"), optional_setting("project.use"),
          optional_setting("thermal.surface_factor_use"), data_table("surface_factor_limits.csv")};
}

double surface_temperature_factor(double u_w_per_m2k, double r_si) {
  return 1.0 - u_w_per_m2k * r_si;
}

const CheckDeclaration kSurfaceTemperatureFactorCheck{
    .id = "thermal.surface_temperature_factor",
    .title = "Temperature factor at the internal surface, plain area",
    .sentence =
        "f_Rsi of the plain area with R_si = 0.25 m²·K/W is at least the least factor of the jurisdiction for "
        "the use of the rooms.",
    .clause = "EN ISO 13788:2012, 4.3 and 5.3",
    .kind = CheckKind::limit,
    .scope = CheckScope::panels,
    .inputs = with_model(surface_inputs(least_factor_inputs())),
    .limits = {"Corners, reveals and joints stand under thermal.junction_temperature_factor.",
               "Rooms of a use of their own, such as a kitchen in a clinic, are seen only where the settings name "
               "them for the whole project."}};

Finding check_surface_temperature(const Panel& panel, const Settings& settings, const Tables& tables,
                                  const TransmittanceResult& panel_transmittance) {
  FindingBuilder builder(kSurfaceTemperatureFactorCheck, panel.global_id);
  if (!panel_transmittance.transmittance) return builder.not_assessed(panel_transmittance.why_not());
  const Transmittance& t = *panel_transmittance.transmittance;
  const auto r_si = mould_resistance(tables, builder);
  const auto limit = least_surface_factor(settings, tables, builder);
  if (!r_si || !limit) return builder.not_assessed();
  const CombinedResistance resistance = total_resistance(t.build_up, *r_si);
  builder.step("upper limit of the total resistance with this surface resistance, layers as in thermal.u_value",
               "R'_tot", resistance.upper, "m²·K/W");
  builder.step("lower limit, likewise", "R''_tot", resistance.lower, "m²·K/W");
  builder.step("total resistance with this surface resistance, layers as in thermal.u_value", "R_tot", resistance.total,
               "m²·K/W", "R_tot = (R'_tot + R''_tot) / 2");
  builder.step("correction of thermal.u_value", "ΔU", t.correction.applied_w_per_m2k, "W/(m²·K)");
  const double u = resistance.transmittance() + t.correction.applied_w_per_m2k;
  builder.step("thermal transmittance with the correction of thermal.u_value", "U", u, "W/(m²·K)",
               "U = 1 / R_tot + ΔU");
  const double factor = surface_temperature_factor(u, *r_si);
  builder.step("temperature factor", "f_Rsi", factor, "", "f_Rsi = 1 − U · R_si");
  add_least_section(t, *r_si, "f_Rsi,min", builder);
  builder.note(
      "Plain area only: corners, reveals and joints stand under thermal.junction_temperature_factor. The limit is that "
      "of "
      "the use of the rooms; kitchens, sports halls, pools and laundries in the building need their own, higher "
      "factor.");
  return builder.judge(factor, "", Relation::at_least, *limit,
                       "factor " + fixed_text(factor, 3) + " is below " + fixed_text(*limit, 2) +
                           ": mould may grow on the surface; the panel needs more insulation");
}

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

const CheckDeclaration kSurfaceCondensationCheck{
    .id = "thermal.surface_condensation",
    .title = "Mould and condensation on the internal surface, plain area",
    .sentence =
        "f_Rsi of the least insulated section of the plain area is at least the greatest f_Rsi,min of all "
        "months, at which the surface has 80 % relative humidity.",
    .clause = "EN ISO 13788:2012, 5.3",
    .kind = CheckKind::limit,
    .scope = CheckScope::panels,
    .inputs = with_model(surface_inputs(climate_inputs())),
    .limits = {"Corners, reveals and joints stand under thermal.junction_temperature_factor.",
               "The climate is that of mean months: a cold week in a mild month is not seen.",
               "Furniture before the wall is covered by the surface resistance of 0.25 m²·K/W alone."}};

Finding check_surface_condensation(const Panel& panel, const Settings& settings, const Tables& tables,
                                   const TransmittanceResult& panel_transmittance) {
  FindingBuilder builder(kSurfaceCondensationCheck, panel.global_id);
  if (!panel_transmittance.transmittance) return builder.not_assessed(panel_transmittance.why_not());
  const auto r_si = mould_resistance(tables, builder);
  const auto climate = read_climate(settings, tables, builder);
  if (!r_si || !climate) return builder.not_assessed();
  const auto demand = mould_demand(*climate);
  if (!demand) return builder.not_assessed("no month is warmer inside than outside");
  add_critical_month(*climate, *demand, builder);
  const double factor = add_least_section(*panel_transmittance.transmittance, *r_si, "f_Rsi", builder);
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
