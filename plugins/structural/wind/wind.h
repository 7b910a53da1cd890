// Peak velocity pressure to EN 1991-1-4:2005+A1:2010 4.2 to 4.5 with the recommended values.
#pragma once

namespace panel_dossier::structural {

/// The expressions of 4.3.2 end at this height.
inline constexpr double kMaximumWindHeight_m = 200.0;
inline constexpr double kAirDensity_kg_per_m3 = 1.25;  ///< 4.5(1) note 2

struct PeakVelocityPressure {
  double effective_height_m = 0.0;     ///< z, not less than zmin
  double terrain_factor = 0.0;         ///< kr (4.5)
  double roughness_factor = 0.0;       ///< cr(z) (4.4)
  double mean_velocity_m_per_s = 0.0;  ///< vm(z) (4.3)
  double turbulence_intensity = 0.0;   ///< Iv(z) (4.7) with kl = 1
  double basic_pressure_pa = 0.0;      ///< qb (4.10)
  double peak_pressure_pa = 0.0;       ///< qp(z) (4.8)
  double exposure_factor = 0.0;        ///< ce(z) (4.9)
};

/// Needs velocity, roughness length, minimum height and orography factor co > 0, and
/// 0 < height <= kMaximumWindHeight_m.
PeakVelocityPressure peak_velocity_pressure(double basic_velocity_m_per_s, double roughness_length_m,
                                            double minimum_height_m, double height_m, double orography_factor = 1.0);

/// cprob (4.2) with K = 0.2 and n = 0.5 for an annual probability of exceedence 0 < p < 1; 1 for p = 0.02.
double probability_factor(double annual_probability);

/// calt of the UK national annex (NA.2a, NA.2b): A is the altitude above sea level in m, z the reference height in m.
double altitude_factor(double altitude_m, double height_m);

/// co of annex A.3(1) for an upwind slope Φ (rise over length, not negative) and the location factor s of figures A.1
/// to A.3: 1 up to a slope of 0.05, 1 + 2·s·Φ up to 0.3, 1 + 0.6·s above.
double orography_factor(double slope, double location_factor);

}  // namespace panel_dossier::structural
