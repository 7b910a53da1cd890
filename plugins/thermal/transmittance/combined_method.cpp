#include "plugins/thermal/transmittance/combined_method.h"

#include <cstddef>
#include <numeric>

namespace panel_dossier::thermal {

namespace {

double upper_limit(const std::vector<HeatPath>& paths, double r_si, double r_se) {
  double conductance = 0.0;
  for (const HeatPath& path : paths) {
    const double along = std::accumulate(path.resistances.begin(), path.resistances.end(), r_si + r_se);
    conductance += path.fraction / along;
  }
  return 1.0 / conductance;
}

double layer_resistance(const std::vector<HeatPath>& paths, std::size_t layer) {
  double conductance = 0.0;
  for (const HeatPath& path : paths) {
    // A film of no resistance leaves nothing to share out between the paths.
    if (path.resistances[layer] <= 0.0) return 0.0;
    conductance += path.fraction / path.resistances[layer];
  }
  return 1.0 / conductance;
}

}  // namespace

CombinedResistance combine(const std::vector<HeatPath>& paths, double r_si, double r_se) {
  CombinedResistance result;
  result.upper = upper_limit(paths, r_si, r_se);
  for (std::size_t layer = 0; layer < paths.front().resistances.size(); ++layer) {
    result.layer_resistances.push_back(layer_resistance(paths, layer));
  }
  result.lower = std::accumulate(result.layer_resistances.begin(), result.layer_resistances.end(), r_si + r_se);
  result.total = (result.upper + result.lower) / 2.0;
  return result;
}

}  // namespace panel_dossier::thermal
