#include "plugins/fire/calculation/interpolation.h"

namespace panel_dossier::fire {

std::optional<double> interpolated(const Points& points, double at) {
  if (points.empty() || at < points.front().first) return std::nullopt;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const auto& [x0, y0] = points[i - 1];
    const auto& [x1, y1] = points[i];
    if (at <= x1) return y0 + (y1 - y0) * (at - x0) / (x1 - x0);
  }
  return points.back().second;
}

}  // namespace panel_dossier::fire
