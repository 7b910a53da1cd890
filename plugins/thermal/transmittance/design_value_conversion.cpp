#include "plugins/thermal/transmittance/design_value_conversion.h"

#include <cmath>

namespace panel_dossier::thermal {

double temperature_factor(const ConversionCoefficients& coefficients, const MaterialConditions& from,
                          const MaterialConditions& to) {
  return std::exp(coefficients.temperature_per_k * (to.temperature_c - from.temperature_c));
}

double moisture_factor(const ConversionCoefficients& coefficients, const MaterialConditions& from,
                       const MaterialConditions& to) {
  return std::exp(coefficients.moisture * (to.moisture_m3_per_m3 - from.moisture_m3_per_m3));
}

double converted_conductivity(double conductivity_w_per_mk, const ConversionCoefficients& coefficients,
                              const MaterialConditions& from, const MaterialConditions& to, double ageing_factor) {
  return conductivity_w_per_mk * temperature_factor(coefficients, from, to) * moisture_factor(coefficients, from, to) *
         ageing_factor;
}

}  // namespace panel_dossier::thermal
