// Saturation of air with water vapour.
#pragma once

#include <string>

namespace panel_dossier::thermal {

/// δ_0: water vapour permeability of air in kg/(m·s·Pa) (EN ISO 13788:2012, 6.2, from memory).
inline constexpr double kVapourPermeabilityOfAir_kg_per_mspa = 2.0e-10;

/// p_sat in Pa at θ in °C, over water from 0 °C, over ice below (EN ISO 13788:2012, annex E, from memory). Meant for
/// −50 to 60 °C.
double saturation_pressure_pa(double temperature_c);

/// The temperature in °C at which `pressure_pa`, above 0, saturates: the inverse of `saturation_pressure_pa`.
double saturation_temperature_c(double pressure_pa);

/// The formula of `saturation_temperature_c` on the branch, water or ice, of `pressure_pa`, with `pressure` for the
/// pressure in Pa: `237.3 · ln(p / 610.5) / (17.269 − ln(p / 610.5))`, in °C.
std::string saturation_temperature_formula(double pressure_pa, const std::string& pressure);

}  // namespace panel_dossier::thermal
