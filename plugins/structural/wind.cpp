#include "plugins/structural/wind.h"

#include <algorithm>
#include <cmath>

namespace panel_dossier::structural {

namespace {

constexpr double kRoughnessLengthOfCategoryII_m = 0.05;

}  // namespace

PeakVelocityPressure peak_velocity_pressure(double basic_velocity_m_per_s, double roughness_length_m,
                                            double minimum_height_m, double height_m) {
  PeakVelocityPressure result;
  result.effective_height_m = std::max(height_m, minimum_height_m);
  const double log_height = std::log(result.effective_height_m / roughness_length_m);
  result.terrain_factor = 0.19 * std::pow(roughness_length_m / kRoughnessLengthOfCategoryII_m, 0.07);
  result.roughness_factor = result.terrain_factor * log_height;
  result.mean_velocity_m_per_s = result.roughness_factor * basic_velocity_m_per_s;
  result.turbulence_intensity = 1.0 / log_height;
  result.basic_pressure_pa = 0.5 * kAirDensity_kg_per_m3 * basic_velocity_m_per_s * basic_velocity_m_per_s;
  const double mean_pressure_pa =
      0.5 * kAirDensity_kg_per_m3 * result.mean_velocity_m_per_s * result.mean_velocity_m_per_s;
  result.peak_pressure_pa = (1.0 + 7.0 * result.turbulence_intensity) * mean_pressure_pa;
  result.exposure_factor = result.peak_pressure_pa / result.basic_pressure_pa;
  return result;
}

}  // namespace panel_dossier::structural
