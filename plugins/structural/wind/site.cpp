#include "plugins/structural/wind/site.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace panel_dossier::structural {

namespace {

constexpr double kRoughnessLengthOfCategoryII_m = 0.05;
constexpr double kAltitudeHeight_m = 10.0;  ///< up to which the altitude counts in full, NA.2a
constexpr double kLevelGround = 0.05;       ///< slope up to which there is no effect, A.3(1)
constexpr double kSteepSlope = 0.3;         ///< slope beyond which the effect grows no more, A.3(1)

}  // namespace

PeakVelocityPressure peak_velocity_pressure(double basic_velocity_m_per_s, double roughness_length_m,
                                            double minimum_height_m, double height_m, double orography_factor) {
  PeakVelocityPressure result;
  result.effective_height_m = std::max(height_m, minimum_height_m);
  const double log_height = std::log(result.effective_height_m / roughness_length_m);
  result.terrain_factor = 0.19 * std::pow(roughness_length_m / kRoughnessLengthOfCategoryII_m, 0.07);
  result.roughness_factor = result.terrain_factor * log_height;
  result.mean_velocity_m_per_s = result.roughness_factor * orography_factor * basic_velocity_m_per_s;
  result.turbulence_intensity = 1.0 / (orography_factor * log_height);
  result.basic_pressure_pa = 0.5 * kAirDensity_kg_per_m3 * basic_velocity_m_per_s * basic_velocity_m_per_s;
  const double mean_pressure_pa =
      0.5 * kAirDensity_kg_per_m3 * result.mean_velocity_m_per_s * result.mean_velocity_m_per_s;
  result.peak_pressure_pa = (1.0 + 7.0 * result.turbulence_intensity) * mean_pressure_pa;
  result.exposure_factor = result.peak_pressure_pa / result.basic_pressure_pa;
  return result;
}

double probability_factor(double annual_probability) {
  constexpr double kShape = 0.2;
  constexpr double kExponent = 0.5;
  const auto term = [](double probability) { return 1.0 - kShape * std::log(-std::log(1.0 - probability)); };
  return std::pow(term(annual_probability) / term(0.02), kExponent);
}

double altitude_factor(double altitude_m, double height_m) {
  const double lessening = height_m > kAltitudeHeight_m ? std::pow(kAltitudeHeight_m / height_m, 0.2) : 1.0;
  return 1.0 + 0.001 * altitude_m * lessening;
}

double orography_factor(double slope, double location_factor) {
  if (slope <= kLevelGround) return 1.0;
  return slope < kSteepSlope ? 1.0 + 2.0 * location_factor * slope : 1.0 + 0.6 * location_factor;
}

namespace {

void read_annex(FindingBuilder& builder, const Settings& settings, const Tables& tables) {
  const auto annex = builder.text("national annex", settings.text("structural.national_annex"),
                                  "setting structural.national_annex (recommended or UK)");
  if (!annex) return;
  const auto procedure = tables.national_annex.text(*annex, "wind_procedure");
  if (!procedure) return builder.missing("no parameters for national annex '" + *annex + "'");
  const auto chosen = settings.text("structural.wind.procedure");
  if (chosen && chosen->value != "recommended") {
    return builder.missing("setting structural.wind.procedure is '" + chosen->value +
                           "': recommended, or leave it out");
  }
  if (procedure->value != "recommended" && !chosen) {
    return builder.missing("national annex '" + *annex +
                           "' replaces the procedure of EN 1991-1-4 4.3 to 4.5: give "
                           "Panel_Structure.DesignWindPressure");
  }
  if (procedure->value != "recommended") {
    builder.text("wind procedure in place of the annex's", chosen, {});
    builder.note("National annex '" + *annex +
                 "' replaces the procedure used here by its own. The setting asks for the recommended one; the "
                 "structural engineer must agree to it.");
  }
}

void read_altitude(FindingBuilder& builder, WindSite& site, const Settings& settings) {
  const auto annex = settings.text("structural.national_annex");
  const auto altitude = settings.number("structural.wind.site_altitude_m");
  if (!annex || !altitude) return;
  if (annex->value != "UK") {
    return builder.missing("setting structural.wind.site_altitude_m: national annex '" + annex->value +
                           "' has no altitude factor here; give the basic wind velocity at the site and leave it out");
  }
  if (altitude->value < 0.0) {
    return builder.missing("setting structural.wind.site_altitude_m must not be negative");
  }
  site.altitude_m = builder.number("altitude of the site above sea level", "A_s", "m", altitude, {});
}

void read_terrain(FindingBuilder& builder, WindSite& site, const Settings& settings, const Tables& tables) {
  const auto category = builder.text("terrain category", settings.text("structural.wind.terrain_category"),
                                     "setting structural.wind.terrain_category (0, I, II, III or IV)");
  if (!category) return;
  if (!tables.terrain_categories.has(*category)) {
    return builder.missing("terrain category '" + *category + "' is not one of 0, I, II, III, IV");
  }
  const auto read = [&](const char* name, const char* symbol, const char* column) {
    return builder.positive(name, symbol, "m", tables.terrain_categories.number(*category, column), name).value_or(0.0);
  };
  site.roughness_length_m = read("roughness length", "z_0", "roughness_length_m");
  site.minimum_height_m = read("minimum height", "z_min", "minimum_height_m");
}

/// A factor that is 1 unless the setting gives another.
double factor(FindingBuilder& builder, const char* name, const char* symbol, const Settings& settings,
              const char* key) {
  const auto given = settings.number(key);
  return given ? builder.positive(name, symbol, "", given, {}).value_or(1.0) : 1.0;
}

void read_probability(FindingBuilder& builder, WindSite& site, const Settings& settings) {
  const auto given = settings.number("structural.wind.annual_probability");
  if (!given) return;
  // Beyond one in two the expression, made for rare winds, says nothing of use.
  if (!(given->value > 0.0 && given->value <= 0.5)) {
    return builder.missing("setting structural.wind.annual_probability must be above 0 and at most 0.5");
  }
  builder.number("annual probability of exceedence", "p", "", given, {});
  site.probability_factor = probability_factor(given->value);
}

void read_orography(FindingBuilder& builder, WindSite& site, const Settings& settings) {
  site.orography_factor = factor(builder, "orography factor", "c_o", settings, "structural.wind.orography_factor");
  const auto slope = settings.number("structural.wind.upwind_slope");
  if (!slope) return;
  if (settings.number("structural.wind.orography_factor")) {
    return builder.missing(
        "settings structural.wind.orography_factor and upwind_slope exclude each other: leave one out");
  }
  const auto phi = builder.positive("upwind slope", "Φ", "", slope, {});
  const auto location = builder.positive(
      "orographic location factor", "s", "", settings.number("structural.wind.orographic_location_factor"),
      "setting structural.wind.orographic_location_factor (EN 1991-1-4 figures A.1 to A.3)");
  if (!phi || !location) return;
  site.orography_factor = orography_factor(*phi, *location);
  site.orography_formula = *phi <= kLevelGround ? "c_o = 1"
                           : *phi < kSteepSlope ? "c_o = 1 + 2 · s · Φ"
                                                : "c_o = 1 + 0.6 · s";
}

}  // namespace

double WindSite::basic_velocity_m_per_s(double height_m) const {
  const double altitude = altitude_m ? altitude_factor(*altitude_m, height_m) : 1.0;
  return direction_factor * season_factor * probability_factor * altitude * fundamental_velocity_m_per_s.value;
}

PeakVelocityPressure WindSite::at(double height_m) const {
  return peak_velocity_pressure(basic_velocity_m_per_s(height_m), roughness_length_m, minimum_height_m, height_m,
                                orography_factor);
}

WindSite read_site(FindingBuilder& builder, const Settings& settings, const Tables& tables) {
  WindSite site;
  read_annex(builder, settings, tables);
  const auto velocity = settings.number("structural.wind.basic_velocity_m_per_s");
  if (builder.positive("fundamental value of the basic wind velocity", "v_b,0", "m/s", velocity,
                       "Panel_Structure.DesignWindPressure or setting structural.wind.basic_velocity_m_per_s")) {
    site.fundamental_velocity_m_per_s = *velocity;
  }
  read_altitude(builder, site, settings);
  read_terrain(builder, site, settings, tables);
  site.direction_factor = factor(builder, "directional factor", "c_dir", settings, "structural.wind.direction_factor");
  site.season_factor = factor(builder, "season factor", "c_season", settings, "structural.wind.season_factor");
  read_probability(builder, site, settings);
  read_orography(builder, site, settings);
  site.building_height_m = builder
                               .positive("height of the building", "h", "m", settings.number("building.height_m"),
                                         "setting building.height_m")
                               .value_or(0.0);
  return site;
}

void add_site_steps(FindingBuilder& builder, const WindSite& site, double height_m) {
  const PeakVelocityPressure wind = site.at(height_m);
  std::string velocity = "v_b = ";
  if (site.direction_factor != 1.0) velocity += "c_dir · ";
  if (site.season_factor != 1.0) velocity += "c_season · ";
  if (site.altitude_m) {
    builder.step("altitude factor (NA to BS EN 1991-1-4 NA.2a, NA.2b)", "c_alt",
                 altitude_factor(*site.altitude_m, height_m), "",
                 height_m > kAltitudeHeight_m ? "c_alt = 1 + 0.001 · A_s · (10 / z_e)^0.2" : "c_alt = 1 + 0.001 · A_s");
    velocity += "c_alt · ";
  }
  if (site.probability_factor != 1.0) {
    builder.step("probability factor", "c_prob", site.probability_factor, "",
                 "c_prob = ((1 − 0.2 · ln(−ln(1 − p))) / (1 − 0.2 · ln(−ln(0.98))))^0.5");
    velocity += "c_prob · ";
  }
  if (!site.orography_formula.empty()) {
    builder.step("orography factor, A.3(1)", "c_o", site.orography_factor, "", site.orography_formula);
  }
  const bool plain = site.direction_factor == 1.0 && site.season_factor == 1.0;
  const bool level = site.orography_factor == 1.0;
  builder
      .step(plain ? "basic wind velocity with c_dir = c_season = 1" : "basic wind velocity", "v_b",
            site.basic_velocity_m_per_s(height_m), "m/s", velocity + "v_b,0")
      .step("effective height", "z", wind.effective_height_m, "m", "z = max(z_e; z_min)")
      .step("terrain factor", "k_r", wind.terrain_factor, "", "k_r = 0.19 · (z_0 / 0.05)^0.07")
      .step("roughness factor", "c_r", wind.roughness_factor, "", "c_r = k_r · ln(z / z_0)")
      .step(level ? "mean wind velocity with c_o = 1" : "mean wind velocity", "v_m", wind.mean_velocity_m_per_s, "m/s",
            level ? "v_m = c_r · v_b" : "v_m = c_r · c_o · v_b")
      .step("turbulence intensity with k_l = 1", "I_v", wind.turbulence_intensity, "",
            level ? "I_v = 1 / ln(z / z_0)" : "I_v = 1 / (c_o · ln(z / z_0))")
      .step("peak velocity pressure with ρ = 1.25 kg/m³", "q_p", wind.peak_pressure_pa, "Pa",
            "q_p = (1 + 7 · I_v) · 0.5 · 1.25 · v_m²")
      .step("exposure factor", "c_e", wind.exposure_factor, "", "c_e = q_p / (0.5 · 1.25 · v_b²)");
}

}  // namespace panel_dossier::structural
