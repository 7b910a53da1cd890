// The wind at the site: what the settings say, and the peak velocity pressure to EN 1991-1-4:2005+A1:2010 4.2 to 4.5
// with the recommended values.
#pragma once

#include <optional>
#include <string>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/settings.h"
#include "plugins/structural/tables.h"

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

/// Complete when the builder it was read with is.
struct WindSite {
  Sourced<double> fundamental_velocity_m_per_s;  ///< vb,0, or vb,map where an altitude is given
  std::optional<double> altitude_m;              ///< only for an annex with an altitude factor
  double direction_factor = 1.0;                 ///< cdir, 4.2(2) note 2
  double season_factor = 1.0;                    ///< cseason, 4.2(2) note 3
  double probability_factor = 1.0;               ///< cprob, 4.2(2) note 4
  double orography_factor = 1.0;                 ///< co
  std::string orography_formula;                 ///< of co by A.3; empty where it is given, or 1 without a hill
  double roughness_length_m = 0.0;
  double minimum_height_m = 0.0;
  double building_height_m = 0.0;

  double basic_velocity_m_per_s(double height_m) const;
  /// Needs 0 < height <= kMaximumWindHeight_m.
  PeakVelocityPressure at(double height_m) const;
};

/// Refuses an annex with a procedure of its own unless setting `structural.wind.procedure` is `recommended`.
WindSite read_site(FindingBuilder& builder, const Settings& settings, const Tables& tables);

/// The steps from v_b,0 to c_e at one height, which stands before them as z_e.
void add_site_steps(FindingBuilder& builder, const WindSite& site, double height_m);

}  // namespace panel_dossier::structural
