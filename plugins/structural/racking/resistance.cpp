#include "plugins/structural/racking/resistance.h"

#include <algorithm>
#include <cmath>

namespace panel_dossier::structural {

double shape_factor(double width_m, double height_m) {
  if (width_m < height_m / 4.0) return 0.0;
  return std::min(1.0, width_m / (height_m / 2.0));
}

double racking_method_a_n(double fastener_n, double width_m, double height_m, double spacing_m) {
  constexpr double kEdgeFasteners = 1.2;
  return kEdgeFasteners * fastener_n * width_m * shape_factor(width_m, height_m) / spacing_m;
}

MethodB racking_method_b(double fastener_n, double diameter_m, double density_kg_per_m3, double width_m,
                         double height_m, double spacing_m, double vertical_n_per_m, double weaker_share) {
  constexpr double kWidest_m = 4.8;
  constexpr double kReference_m = 2.4;
  MethodB result;
  result.basic_spacing_m = 9700.0 * diameter_m / density_kg_per_m3;
  result.dimension_factor =
      width_m <= height_m ? width_m / height_m : std::pow(std::min(width_m, kWidest_m) / height_m, 0.4);
  const double q = vertical_n_per_m / 1e3;
  result.load_factor = 1.0 + (0.083 * q - 0.0008 * q * q) * std::pow(kReference_m / width_m, 0.4);
  result.spacing_factor = 1.0 / (0.86 * spacing_m / result.basic_spacing_m + 0.57);
  result.sheathing_factor = 1.0 + 0.5 * weaker_share;
  result.resistance_n = fastener_n * width_m / result.basic_spacing_m * result.dimension_factor * result.load_factor *
                        result.spacing_factor * result.sheathing_factor;
  return result;
}

}  // namespace panel_dossier::structural
