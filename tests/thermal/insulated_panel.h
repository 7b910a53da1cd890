// The ordinary timber panel with better insulation, and its U-value worked out without any of the program's geometry.
#pragma once

#include <cstddef>

#include "core/api/testing/change.h"
#include "tests/thermal/heated_panel.h"

namespace panel_dossier::testing {

/// Share of the studs, and resistances of the panel in m²·K/W.
inline constexpr double kStudShare = 5.0 * 0.045 / 2.4;
inline constexpr double kStudResistance = 0.140 / 0.13;
inline constexpr double kOtherResistance = 0.13 + 0.0125 / 0.25 + 0.012 / 0.13 + 0.04;

/// U in W/(m²·K) of one bridged layer between layers of `r_other`, surfaces included, m²·K/W.
inline double u_by_hand(double share, double r_wool, double r_stud, double r_other) {
  const double upper = 1.0 / ((1.0 - share) / (r_other + r_wool) + share / (r_other + r_stud));
  const double lower = r_other + 1.0 / ((1.0 - share) / r_wool + share / r_stud);
  return 2.0 / (upper + lower);
}

/// U of the panel with wool of this λ in W/(m·K) behind surfaces and boards of `r_other`.
inline double u_with_wool(double conductivity, double r_other = kOtherResistance) {
  return u_by_hand(kStudShare, 0.140 / conductivity, kStudResistance, r_other);
}

/// λ of the wool with which the panel has this U: the inverse of `u_with_wool`, by bisection.
inline double wool_for(double u, double r_other = kOtherResistance) {
  double low = 0.001;
  double high = 1.0;
  for (int i = 0; i < 200; ++i) {
    const double middle = (low + high) / 2.0;
    (u_with_wool(middle, r_other) < u ? low : high) = middle;
  }
  return low;
}

/// Indices of materials of the timber panel.
inline const std::size_t kGypsumMaterial = TimberPanel().gypsum;
inline const std::size_t kWoolMaterial = HeatedPanel().wool;
inline const std::size_t kTimberMaterial = HeatedPanel().timber;
inline const std::size_t kBoardMaterial = HeatedPanel().board;

inline constexpr double kBetterWool_w_per_mk = 0.022;

/// A panel that keeps the limit on U.
inline HeatedPanel insulated_panel() {
  HeatedPanel model;
  set_of_material(kWoolMaterial, "Pset_MaterialThermal.ThermalConductivity", kBetterWool_w_per_mk)(model.project,
                                                                                                   model.settings);
  return model;
}

inline Project insulated_project() {
  return insulated_panel().project;
}

inline Settings insulated_settings() {
  return insulated_panel().settings;
}

inline Change set_wool(double conductivity) {
  return set_of_material(kWoolMaterial, "Pset_MaterialThermal.ThermalConductivity", conductivity);
}

inline Change drop_wool() {
  return drop_of_material(kWoolMaterial, "Pset_MaterialThermal.ThermalConductivity");
}

/// What is missing then.
inline constexpr const char* kNoWool = "material 'mineral wool' has no Pset_MaterialThermal.ThermalConductivity";
inline constexpr const char* kNoUValue =
    "thermal.u_value is not assessed: material 'mineral wool' has no Pset_MaterialThermal.ThermalConductivity";

}  // namespace panel_dossier::testing
