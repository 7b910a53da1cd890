// Thermal resistance of components of homogeneous and inhomogeneous layers: the combined method.
#pragma once

#include <vector>

namespace panel_dossier::thermal {

/// One way for heat from inside to outside at right angles to the surface.
struct HeatPath {
  double fraction = 0.0;            ///< share of the area, above 0; all paths add up to 1
  std::vector<double> resistances;  ///< m²·K/W of each layer along this path, from inside; at least 0
};

/// All resistances in m²·K/W, surface resistances included in the totals.
struct CombinedResistance {
  double upper = 0.0;                     ///< R'tot: no heat flows sideways
  double lower = 0.0;                     ///< R''tot: every plane parallel to the surface has one temperature
  double total = 0.0;                     ///< Rtot: the mean of both limits
  std::vector<double> layer_resistances;  ///< equivalent resistance of each layer in the lower limit

  /// The method is not to be used above 1.5.
  double ratio() const { return upper / lower; }
  /// Largest relative error of `total`, as a share of 1.
  double max_relative_error() const { return (upper - lower) / (2.0 * total); }
  /// U in W/(m²·K), without corrections.
  double transmittance() const { return 1.0 / total; }
};

/// EN ISO 6946:2017, 6.7.2. `paths` is not empty and every path has the same number of layers; `r_si` and `r_se` are
/// the surface resistances in m²·K/W, above 0.
CombinedResistance combine(const std::vector<HeatPath>& paths, double r_si, double r_se);

}  // namespace panel_dossier::thermal
