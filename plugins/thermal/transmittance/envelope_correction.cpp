#include "plugins/thermal/transmittance/envelope_correction.h"

namespace panel_dossier::thermal {

double InsulationShare::squared() const {
  const double share = layer_resistance / total_resistance;
  return share * share;
}

double air_void_correction(double level_w_per_m2k, const InsulationShare& share) {
  return level_w_per_m2k * share.squared();
}

double fastener_correction(const CrossingFasteners& fasteners, const InsulationShare& share) {
  constexpr double kLeastConductivity_w_per_mk = 1.0;
  if (fasteners.conductivity_w_per_mk < kLeastConductivity_w_per_mk) return 0.0;
  const double alpha = 0.8 * fasteners.depth_m / fasteners.layer_m;
  return alpha * fasteners.conductivity_w_per_mk * fasteners.cross_section_m2 * fasteners.per_m2 / fasteners.layer_m *
         share.squared();
}

bool may_be_left_out(double correction_w_per_m2k, double u_w_per_m2k) {
  constexpr double kLeastShare = 0.03;
  return correction_w_per_m2k < kLeastShare * u_w_per_m2k;
}

}  // namespace panel_dossier::thermal
