#include "plugins/structural/wind_check.h"

#include <algorithm>

#include "core/api/finding_builder.h"
#include "plugins/structural/wind.h"

namespace panel_dossier::structural {

namespace {

constexpr const char* kCheck = "structural.wind_pressure";
constexpr const char* kTitle = "Characteristic wind pressure";
constexpr const char* kClause = "EN 1991-1-4:2005+A1:2010 4.3 to 4.5, 5.2";

Finding declared_pressure(const Panel& panel, const Sourced<double>& pressure) {
  FindingBuilder builder(kCheck, kTitle, panel.global_id, kClause);
  builder.basis(Basis::declared).decimals(0);
  const auto value = builder.positive("wind pressure given for the panel", "w_k", "Pa", pressure, {});
  if (!value) return builder.not_assessed();
  builder.step("pressure on the panel, as given", "w", *value, "Pa", "w = w_k");
  builder.note("Taken from the export as the structural engineer's value; not calculated here.");
  return builder.inform(*value, "Pa");
}

/// Top of the panel above the lowest storey; none when no storey says where it is.
std::optional<Sourced<double>> top_above_ground(const Panel& panel, const Project& project) {
  if (project.storeys.empty() || !project.storeys.front().elevation_m) return std::nullopt;
  const double ground_m = project.storeys.front().elevation_m->value;
  return Sourced<double>{panel.frame.origin.z + panel.height_m.value - ground_m, panel.height_m.origin};
}

struct WindSite {
  std::optional<double> velocity_m_per_s;
  std::optional<double> coefficient;
  std::optional<double> roughness_length_m;
  std::optional<double> minimum_height_m;
  std::optional<double> building_height_m;
};

WindSite read_site(FindingBuilder& builder, const Settings& settings, const Tables& tables) {
  WindSite site;
  site.velocity_m_per_s =
      builder.positive("fundamental value of the basic wind velocity", "v_b,0", "m/s",
                       settings.number("structural.wind.basic_velocity_m_per_s"),
                       "Panel_Structure.DesignWindPressure or setting structural.wind.basic_velocity_m_per_s");
  const auto category = builder.text("terrain category", settings.text("structural.wind.terrain_category"),
                                     "setting structural.wind.terrain_category (0, I, II, III or IV)");
  if (category && !tables.terrain_categories.has(*category)) {
    builder.missing("terrain category '" + *category + "' is not one of 0, I, II, III, IV");
  } else if (category) {
    site.roughness_length_m =
        builder.positive("roughness length", "z_0", "m",
                         tables.terrain_categories.number(*category, "roughness_length_m"), "roughness length");
    site.minimum_height_m =
        builder.positive("minimum height", "z_min", "m",
                         tables.terrain_categories.number(*category, "minimum_height_m"), "minimum height");
  }
  site.coefficient = builder.positive("net pressure coefficient, external and internal together", "c_p,net", "",
                                      settings.number("structural.wind.external_pressure_coefficient"),
                                      "setting structural.wind.external_pressure_coefficient");
  site.building_height_m = builder.positive("height of the building", "h", "m", settings.number("building.height_m"),
                                            "setting building.height_m");
  return site;
}

void add_steps(FindingBuilder& builder, const PeakVelocityPressure& wind, double velocity_m_per_s) {
  builder
      .step("basic wind velocity with c_dir = c_season = 1", "v_b", velocity_m_per_s, "m/s",
            "v_b = c_dir · c_season · v_b,0")
      .step("effective height", "z", wind.effective_height_m, "m", "z = max(z_e; z_min)")
      .step("terrain factor", "k_r", wind.terrain_factor, "", "k_r = 0.19 · (z_0 / 0.05 m)^0.07")
      .step("roughness factor", "c_r(z)", wind.roughness_factor, "", "c_r = k_r · ln(z / z_0)")
      .step("mean wind velocity with c_o = 1", "v_m(z)", wind.mean_velocity_m_per_s, "m/s", "v_m = c_r · c_o · v_b")
      .step("turbulence intensity with k_l = 1", "I_v(z)", wind.turbulence_intensity, "",
            "I_v = k_l / (c_o · ln(z / z_0))")
      .step("peak velocity pressure with ρ = 1.25 kg/m³", "q_p(z)", wind.peak_pressure_pa, "Pa",
            "q_p = (1 + 7 · I_v) · 0.5 · ρ · v_m²")
      .step("exposure factor", "c_e(z)", wind.exposure_factor, "", "c_e = q_p / q_b");
}

Finding derived_pressure(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables) {
  FindingBuilder builder(kCheck, kTitle, panel.global_id, kClause);
  builder.decimals(0);
  const auto annex = builder.text("national annex", settings.text("structural.national_annex"),
                                  "setting structural.national_annex (recommended or UK)");
  const auto procedure =
      annex ? tables.national_annex.text(*annex, "wind_procedure") : std::optional<Sourced<std::string>>{};
  if (annex && !procedure) builder.missing("no parameters for national annex '" + *annex + "'");
  if (procedure && procedure->value != "recommended") {
    builder.missing("national annex '" + *annex +
                    "' replaces the procedure of EN 1991-1-4 4.3 to 4.5: give Panel_Structure.DesignWindPressure");
  }
  const WindSite site = read_site(builder, settings, tables);
  if (builder.incomplete()) return builder.not_assessed();
  double height_m = *site.building_height_m;
  if (const auto top = top_above_ground(panel, project); top && top->value > height_m) {
    builder.number("top of the panel above the lowest storey", "z_top", "m", top, {});
    height_m = top->value;
  }
  if (height_m > kMaximumWindHeight_m) {
    return builder.not_assessed("reference height above 200 m, where EN 1991-1-4 4.3.2 ends");
  }
  const auto wind =
      peak_velocity_pressure(*site.velocity_m_per_s, *site.roughness_length_m, *site.minimum_height_m, height_m);
  const double pressure_pa = wind.peak_pressure_pa * *site.coefficient;
  builder.step("reference height", "z_e", height_m, "m", "z_e = max(h; z_top)");
  add_steps(builder, wind, *site.velocity_m_per_s);
  builder.step("wind pressure", "w", pressure_pa, "Pa", "w = q_p(z_e) · c_p,net")
      .note(
          "The reference height is that of the whole building (EN 1991-1-4 7.2.2, building not taller than wide); "
          "safe for every panel below it.")
      .note(
          "One pressure coefficient for the whole envelope: zones A to E and panel areas below 10 m² are not told "
          "apart; the coefficient must cover them. Orography and funnelling between buildings are not included.");
  return builder.inform(pressure_pa, "Pa");
}

}  // namespace

Finding wind_pressure(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables) {
  if (const auto given = panel.properties.number("Panel_Structure", "DesignWindPressure")) {
    return declared_pressure(panel, *given);
  }
  return derived_pressure(panel, project, settings, tables);
}

}  // namespace panel_dossier::structural
