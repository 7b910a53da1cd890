#include "plugins/structural/projection.h"

#include <cmath>

namespace panel_dossier::structural {

double height_above_last_support_m(double height_m, double spacing_m) {
  constexpr double kSameLevel_m = 0.001;
  if (spacing_m >= height_m - kSameLevel_m) return 0.0;
  const double above_m = height_m - std::floor((height_m + kSameLevel_m) / spacing_m) * spacing_m;
  return above_m > kSameLevel_m ? above_m : 0.0;
}

double tip_deflection_from_bending_m(double projection_m, double span_m, double line_load_n_per_m,
                                     double bending_stiffness_nm2) {
  const double a = projection_m;
  return line_load_n_per_m * a * a * a * (4.0 * span_m + 3.0 * a) / (24.0 * bending_stiffness_nm2);
}

double tip_deflection_from_shear_m(double projection_m, double span_m, double line_load_n_per_m,
                                   double shear_stiffness_n) {
  const double a = projection_m;
  return line_load_n_per_m * a * a / (2.0 * shear_stiffness_n) * (1.0 + a / span_m);
}

}  // namespace panel_dossier::structural
