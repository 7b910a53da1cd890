// Peak velocity pressure to EN 1991-1-4:2005+A1:2010 4.3 to 4.5 with the recommended values.
#pragma once

namespace panel_dossier::structural {

/// The expressions of 4.3.2 end at this height.
inline constexpr double kMaximumWindHeight_m = 200.0;
inline constexpr double kAirDensity_kg_per_m3 = 1.25;  ///< 4.5(1) note 2

struct PeakVelocityPressure {
  double effective_height_m = 0.0;     ///< z, not less than zmin
  double terrain_factor = 0.0;         ///< kr (4.5)
  double roughness_factor = 0.0;       ///< cr(z) (4.4)
  double mean_velocity_m_per_s = 0.0;  ///< vm(z) (4.3) with co = 1
  double turbulence_intensity = 0.0;   ///< Iv(z) (4.7) with kl = 1
  double basic_pressure_pa = 0.0;      ///< qb (4.10)
  double peak_pressure_pa = 0.0;       ///< qp(z) (4.8)
  double exposure_factor = 0.0;        ///< ce(z) (4.9)
};

/// Needs velocity, roughness length and minimum height > 0 and 0 < height <= kMaximumWindHeight_m.
PeakVelocityPressure peak_velocity_pressure(double basic_velocity_m_per_s, double roughness_length_m,
                                            double minimum_height_m, double height_m);

}  // namespace panel_dossier::structural
