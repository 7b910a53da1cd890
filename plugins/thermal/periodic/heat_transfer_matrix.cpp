#include "plugins/thermal/periodic/heat_transfer_matrix.h"

#include <cmath>
#include <numbers>

namespace panel_dossier::thermal {

namespace {

HeatTransferMatrix product(const HeatTransferMatrix& a, const HeatTransferMatrix& b) {
  return {a.z11 * b.z11 + a.z12 * b.z21, a.z11 * b.z12 + a.z12 * b.z22, a.z21 * b.z11 + a.z22 * b.z21,
          a.z21 * b.z12 + a.z22 * b.z22};
}

/// κ = T / 2π · |(Z_mm − 1) / Z_12| (EN ISO 13786:2017, 7.4).
double areal_capacity(std::complex<double> diagonal, std::complex<double> z12, double period_s) {
  return period_s / (2.0 * std::numbers::pi) * std::abs((diagonal - 1.0) / z12);
}

}  // namespace

HeatTransferMatrix layer_matrix(const PeriodicLayer& layer, double period_s) {
  const double capacity = layer.density_kg_per_m3 * layer.specific_heat_j_per_kgk * layer.thickness_m;
  if (capacity <= 0.0) return {1.0, -layer.resistance_m2k_per_w, 0.0, 1.0};
  // (1 + j) ξ with ξ = d / δ: the elements of the standard are hyperbolic functions of it, written out in real numbers.
  const double angular_frequency = 2.0 * std::numbers::pi / period_s;
  const std::complex<double> argument =
      std::sqrt(std::complex<double>(0.0, angular_frequency * capacity * layer.resistance_m2k_per_w));
  const std::complex<double> cosh = std::cosh(argument);
  const std::complex<double> sinh = std::sinh(argument);
  return {cosh, -layer.resistance_m2k_per_w * sinh / argument, -sinh * argument / layer.resistance_m2k_per_w, cosh};
}

HeatTransferMatrix component_matrix(const std::vector<PeriodicLayer>& layers, double period_s) {
  HeatTransferMatrix result;
  for (const PeriodicLayer& layer : layers) result = product(layer_matrix(layer, period_s), result);
  return result;
}

DynamicCharacteristics dynamic_characteristics(const std::vector<PeriodicLayer>& layers, double period_s) {
  const HeatTransferMatrix z = component_matrix(layers, period_s);
  double resistance = 0.0;
  for (const PeriodicLayer& layer : layers) resistance += layer.resistance_m2k_per_w;
  DynamicCharacteristics result;
  result.periodic_transmittance = -1.0 / z.z12;
  result.steady_transmittance = 1.0 / resistance;
  result.decrement_factor = std::abs(result.periodic_transmittance) * resistance;
  double angle = std::arg(result.periodic_transmittance);
  if (angle > 0.0) angle -= 2.0 * std::numbers::pi;
  result.time_shift_s = angle * period_s / (2.0 * std::numbers::pi);
  result.internal_areal_capacity = areal_capacity(z.z11, z.z12, period_s);
  result.external_areal_capacity = areal_capacity(z.z22, z.z12, period_s);
  return result;
}

}  // namespace panel_dossier::thermal
