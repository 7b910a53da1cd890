#include "plugins/structural/basis/projection.h"

#include <cmath>

namespace panel_dossier::structural {

double height_above_last_support_m(double height_m, double spacing_m) {
  constexpr double kSameLevel_m = 0.001;
  if (spacing_m >= height_m - kSameLevel_m) return 0.0;
  const double above_m = height_m - std::floor((height_m + kSameLevel_m) / spacing_m) * spacing_m;
  return above_m > kSameLevel_m ? above_m : 0.0;
}

}  // namespace panel_dossier::structural
