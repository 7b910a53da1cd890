#include "plugins/thermal/junctions/surface_temperature.h"

#include <numeric>
#include <string>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/fixed_text.h"
#include "plugins/thermal/moisture/temperature_profile.h"

namespace panel_dossier::thermal {

namespace {

void add_worst_section(const Transmittance& t, double r_si, FindingBuilder& builder) {
  const auto paths = heat_paths(t.build_up.bridged);
  const std::size_t least = least_insulated(paths);
  const auto& resistances = paths[least].resistances;
  const double total = std::accumulate(resistances.begin(), resistances.end(), r_si + t.build_up.r_se_m2k_per_w);
  builder.step("factor of the least insulated section (" +
                   section_name(t.build_up.bridged, t.build_up.bridged.sections[least]) +
                   "), heat not spreading sideways",
               "f_Rsi,min", surface_temperature_factor(1.0 / total, r_si), "", "1 − R_si / R_section");
}

/// The use of the rooms: `thermal.surface_factor_use` for rooms that the use of the building does not tell.
std::optional<std::string> use_of_rooms(const Settings& settings, FindingBuilder& builder) {
  if (const auto rooms = settings.text("thermal.surface_factor_use")) {
    return builder.text("use of the rooms", rooms, "setting 'thermal.surface_factor_use' is empty");
  }
  return builder.text("use of the building", settings.text("project.use"),
                      "setting 'project.use' is missing, so no limit is known");
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

}  // namespace

std::optional<double> least_surface_factor(const Settings& settings, const Tables& tables, FindingBuilder& builder) {
  const auto jurisdiction = builder.text("jurisdiction", settings.text("project.jurisdiction"),
                                         "setting 'project.jurisdiction' is missing, so no limit is known");
  const auto use = use_of_rooms(settings, builder);
  if (!jurisdiction || !use) return std::nullopt;
  const auto row = row_for(tables.surface_factor_limits, *jurisdiction, *use);
  if (!row) {
    builder.missing("surface_factor_limits.csv holds no limit for '" + *use + "' in '" + *jurisdiction +
                    "' (settings project.jurisdiction, project.use, thermal.surface_factor_use)");
    return std::nullopt;
  }
  return builder.positive("least temperature factor at the internal surface", "f_Rsi,limit", "",
                          tables.surface_factor_limits.number(*row, "factor_min"),
                          "surface_factor_limits.csv row '" + *row + "' has no number in factor_min");
}

double surface_temperature_factor(double u_w_per_m2k, double r_si) {
  return 1.0 - u_w_per_m2k * r_si;
}

Finding check_surface_temperature(const Panel& panel, const Settings& settings, const Tables& tables,
                                  const TransmittanceResult& panel_transmittance) {
  FindingBuilder builder("thermal.surface_temperature_factor", "Temperature factor at the internal surface, plain area",
                         panel.global_id, "EN ISO 13788:2012, 4.3 and 5.3");
  if (!panel_transmittance.transmittance) {
    return builder.not_assessed("thermal.u_value is not assessed: " + panel_transmittance.u_value.reason);
  }
  const Transmittance& t = *panel_transmittance.transmittance;
  const auto r_si = builder.positive("internal surface resistance for mould growth", "R_si", "m²·K/W",
                                     tables.surface_resistances.number("inside_mould", "resistance_m2k_per_w"),
                                     "surface_resistances.csv has no row 'inside_mould'");
  const auto limit = least_surface_factor(settings, tables, builder);
  if (!r_si || !limit) return builder.not_assessed();
  const CombinedResistance resistance = total_resistance(t.build_up, *r_si);
  builder.step("total resistance with this surface resistance, layers as in thermal.u_value", "R_tot", resistance.total,
               "m²·K/W", "(R'_tot + R''_tot) / 2");
  const double u = resistance.transmittance() + t.correction_w_per_m2k;
  builder.step("thermal transmittance with the correction of thermal.u_value", "U", u, "W/(m²·K)", "1 / R_tot + ΔU");
  const double factor = surface_temperature_factor(u, *r_si);
  builder.step("temperature factor", "f_Rsi", factor, "", "1 − U · R_si");
  add_worst_section(t, *r_si, builder);
  builder.note(
      "Plain area only: corners, reveals and joints stand under thermal.junction_temperature_factor. The limit is that "
      "of "
      "the use of the rooms; kitchens, sports halls, pools and laundries in the building need their own, higher "
      "factor.");
  return builder.judge(factor, "", Relation::at_least, *limit,
                       "factor " + fixed_text(factor, 3) + " is below " + fixed_text(*limit, 2) +
                           ": mould may grow on the surface; the panel needs more insulation");
}

}  // namespace panel_dossier::thermal
