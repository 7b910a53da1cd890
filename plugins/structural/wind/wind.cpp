#include "plugins/structural/wind/wind.h"

#include <algorithm>
#include <cmath>

namespace panel_dossier::structural {

namespace {

constexpr double kRoughnessLengthOfCategoryII_m = 0.05;

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
  return 1.0 + 0.001 * altitude_m * (height_m > 10.0 ? std::pow(10.0 / height_m, 0.2) : 1.0);
}

double orography_factor(double slope, double location_factor) {
  if (slope <= 0.05) return 1.0;
  return slope < 0.3 ? 1.0 + 2.0 * location_factor * slope : 1.0 + 0.6 * location_factor;
}

}  // namespace panel_dossier::structural
