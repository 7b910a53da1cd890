// Conversion of a thermal conductivity from declared to design conditions.
#pragma once

namespace panel_dossier::thermal {

/// Temperature and moisture content by volume at which a conductivity holds.
struct MaterialConditions {
  double temperature_c = 0.0;
  double moisture_m3_per_m3 = 0.0;
};

/// f_T in 1/K and f_ψ of a material, f_ψ for moisture by volume (f_u is that for moisture by mass).
struct ConversionCoefficients {
  double temperature_per_k = 0.0;
  double moisture = 0.0;
  double greatest_moisture_m3_per_m3 = 0.0;  ///< ψ up to which f_ψ holds
};

/// F_T = exp(f_T · (T_2 − T_1)) (EN ISO 10456:2007, 7.2).
double temperature_factor(const ConversionCoefficients& coefficients, const MaterialConditions& from,
                          const MaterialConditions& to);

/// F_m = exp(f_ψ · (ψ_2 − ψ_1)) (EN ISO 10456:2007, 7.3).
double moisture_factor(const ConversionCoefficients& coefficients, const MaterialConditions& from,
                       const MaterialConditions& to);

/// λ_2 = λ_1 · F_T · F_m · F_a in W/(m·K) (EN ISO 10456:2007, 7.1). `ageing_factor` F_a is 1 where the declared value
/// already holds for an aged product (7.4).
double converted_conductivity(double conductivity_w_per_mk, const ConversionCoefficients& coefficients,
                              const MaterialConditions& from, const MaterialConditions& to, double ageing_factor);

}  // namespace panel_dossier::thermal
