#include "core/intake/panels/panel_frame.h"

#include <array>
#include <cmath>

namespace panel_dossier {

namespace {

// Within 8 degrees of the vertical: beyond a batter, short of any roof.
constexpr double kMinVerticalCosine = 0.99;
// No cassette is as thick as this, so a longer y extent is the width of a panel modelled along y.
constexpr double kThickerThanAnyCassette_m = 1.0;

const Vec3 kUp{0.0, 0.0, 1.0};

}  // namespace

Frame turned_about(const Frame& frame) {
  return {frame.origin, frame.x_axis * -1.0, frame.y_axis * -1.0, frame.z_axis};
}

Frame upright(const Frame& placement, const Vec3& size, bool along_x) {
  const std::array<Vec3, 3> axes{placement.x_axis, placement.y_axis, placement.z_axis};
  const std::array<double, 3> extents{size.x, size.y, size.z};
  std::size_t up = 2;
  for (std::size_t i = 0; i < axes.size(); ++i) {
    if (std::abs(dot(axes[i], kUp)) > kMinVerticalCosine) up = i;
  }
  const std::size_t a = (up + 1) % 3;
  const std::size_t b = (up + 2) % 3;
  std::size_t through = extents[a] < extents[b] ? a : b;
  if (up == 2) {
    const bool is_along_x = extents[1] > extents[0] && extents[1] > kThickerThanAnyCassette_m;
    through = along_x || is_along_x ? 0 : 1;
  }
  const Vec3 z = axes[up] * (dot(axes[up], kUp) < 0.0 ? -1.0 : 1.0);
  const Vec3 y = axes[through];
  return {placement.origin, cross(y, z), y, z};
}

}  // namespace panel_dossier
