// Lines of equal temperature in a two-dimensional field.
#pragma once

#include <vector>

#include "core/api/support/geometry.h"
#include "plugins/thermal/conduction/field.h"

namespace panel_dossier::thermal::conduction {

/// A line from end to end, in m; a closed line repeats its first point.
using Polyline = std::vector<Vec2>;

/// Traces temperatures in the x-y plane of a two-dimensional field by marching squares over its solid cells. Lines end
/// at the surfaces of the solids.
/// Immutable after construction.
class IsothermTracer {
 public:
  /// `field` must outlive the tracer.
  explicit IsothermTracer(const Field& field);

  /// The lines of `temperature_c`. Points are left out where the line stays within `tolerance_m` without them.
  std::vector<Polyline> trace(double temperature_c, double tolerance_m = 0.0005) const;

 private:
  const Field& field_;
  std::vector<double> corners_c_;  ///< at the crossings of grid lines, x running fastest; NaN where there is no solid
};

}  // namespace panel_dossier::thermal::conduction
