// Saturation of air with water vapour.
#pragma once

namespace panel_dossier::thermal {

/// δ_0: water vapour permeability of air in kg/(m·s·Pa) (EN ISO 13788:2012, 6.2, from memory).
inline constexpr double kVapourPermeabilityOfAir_kg_per_mspa = 2.0e-10;

/// p_sat in Pa at θ in °C, over water from 0 °C, over ice below (EN ISO 13788:2012, annex E, from memory). Meant for
/// −50 to 60 °C.
double saturation_pressure_pa(double temperature_c);

/// The temperature in °C at which `pressure_pa`, above 0, saturates: the inverse of `saturation_pressure_pa`.
double saturation_temperature_c(double pressure_pa);

}  // namespace panel_dossier::thermal
