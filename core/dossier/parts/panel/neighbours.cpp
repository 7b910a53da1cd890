#include "core/dossier/parts/panel/neighbours.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "core/api/support/geometry.h"

namespace panel_dossier {

namespace {

constexpr double kSameWay = 0.99;  // cosine
constexpr double kPlaneReach_m = 0.3;
constexpr double kSideReach_m = 0.15;
constexpr double kHeightReach_m = 0.6;

double shared(double start, double end, double other_start, double other_end) {
  return std::min(end, other_end) - std::max(start, other_start);
}

/// The nearest so far.
struct Nearest {
  std::optional<std::size_t> panel;
  double gap_m = std::numeric_limits<double>::infinity();

  void offer(std::size_t index, double gap, double reach_m) {
    if (std::fabs(gap) > reach_m || std::fabs(gap) >= gap_m) return;
    panel = index;
    gap_m = std::fabs(gap);
  }
};

class Look {
 public:
  explicit Look(const Panel& panel) : panel_(panel) {}

  void take(std::size_t index, const Panel& other) {
    if (dot(panel_.frame.y_axis, other.frame.y_axis) < kSameWay) return;
    const Vec3 way = other.frame.origin - panel_.frame.origin;
    if (std::fabs(dot(way, panel_.frame.y_axis)) > kPlaneReach_m) return;
    const double width = panel_.width_m.value;
    const double height = panel_.height_m.value;
    const double left = dot(way, panel_.frame.x_axis);
    const double right = left + other.width_m.value;
    const double foot = dot(way, panel_.frame.z_axis);
    const double head = foot + other.height_m.value;
    if (shared(0.0, height, foot, head) >= 0.5 * std::min(height, other.height_m.value)) {
      left_.offer(index, right, kSideReach_m);
      right_.offer(index, left - width, kSideReach_m);
    }
    if (shared(0.0, width, left, right) >= 0.5 * std::min(width, other.width_m.value)) {
      below_.offer(index, head, kHeightReach_m);
      above_.offer(index, foot - height, kHeightReach_m);
    }
  }

  PanelNeighbours found() const { return {left_.panel, right_.panel, above_.panel, below_.panel}; }

 private:
  const Panel& panel_;
  Nearest left_;
  Nearest right_;
  Nearest above_;
  Nearest below_;
};

}  // namespace

std::vector<PanelNeighbours> neighbours_of_panels(const Project& project) {
  const std::vector<Panel>& panels = project.panels;
  std::vector<Box3> bounds;
  bounds.reserve(panels.size());
  double longest_m = 0.0;
  for (const Panel& panel : panels) {
    bounds.push_back(panel.world_bounds());
    longest_m = std::max(longest_m, bounds.back().max.x - bounds.back().min.x);
  }
  std::vector<std::size_t> by_x(panels.size());
  std::iota(by_x.begin(), by_x.end(), std::size_t{0});
  std::stable_sort(by_x.begin(), by_x.end(),
                   [&](std::size_t a, std::size_t b) { return bounds[a].min.x < bounds[b].min.x; });
  std::vector<PanelNeighbours> found(panels.size());
  for (std::size_t i = 0; i < panels.size(); ++i) {
    if (!panels[i].outside_known) continue;
    Look look(panels[i]);
    const double from = bounds[i].min.x - longest_m - kHeightReach_m;
    const auto first = std::lower_bound(by_x.begin(), by_x.end(), from,
                                        [&](std::size_t panel, double x) { return bounds[panel].min.x < x; });
    for (auto at = first; at != by_x.end() && bounds[*at].min.x <= bounds[i].max.x + kHeightReach_m; ++at) {
      if (*at != i && panels[*at].outside_known) look.take(*at, panels[*at]);
    }
    found[i] = look.found();
  }
  return found;
}

}  // namespace panel_dossier
