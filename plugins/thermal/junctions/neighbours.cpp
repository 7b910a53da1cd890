#include "plugins/thermal/junctions/neighbours.h"

#include <algorithm>
#include <cmath>

namespace panel_dossier::thermal {

namespace {

constexpr double kJointReach_m = 0.060;
constexpr double kCornerReach_m = 0.75;
constexpr double kVerticalReach_m = 0.100;
/// Panels of unlike thickness that share a face have their middles this far apart at most.
constexpr double kPlaneReach_m = 0.150;
constexpr double kParallel = 0.99;
constexpr double kSquare = 0.15;

double edge_x(const Panel& panel, Side side) {
  return side == Side::left ? 0.0 : panel.width_m.value;
}

/// Middle of the panel's thickness at a vertical edge, at the foot.
Vec3 edge_point(const Panel& panel, Side side) {
  return panel.frame.to_parent(Vec3{edge_x(panel, side), panel.thickness_m.value / 2.0, 0.0});
}

double foot_m(const Panel& panel) {
  return panel.frame.origin.z;
}

double head_m(const Panel& panel) {
  return panel.frame.origin.z + panel.height_m.value;
}

bool side_by_side(const Panel& a, const Panel& b) {
  const double shared = std::min(head_m(a), head_m(b)) - std::max(foot_m(a), foot_m(b));
  return shared >= 0.5 * std::min(a.height_m.value, b.height_m.value);
}

double plan_distance(const Vec3& a, const Vec3& b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

/// How the other panel meets this one's edge when it is near enough.
Neighbour meet(const Panel& panel, Side side, const Panel& other) {
  const Vec3 here = edge_point(panel, side);
  Neighbour found;
  for (const Side other_side : {Side::left, Side::right}) {
    const double distance = plan_distance(here, edge_point(other, other_side));
    if (distance > kCornerReach_m || (found.panel != nullptr && distance >= found.distance_m)) continue;
    const double along = dot(panel.frame.y_axis, other.frame.y_axis);
    const Vec3 offset = edge_point(other, other_side) - here;
    if (along > kParallel) {
      const bool opposite = side != other_side;
      const bool same_plane = std::fabs(dot(offset, panel.frame.y_axis)) <= kPlaneReach_m;
      const bool near = std::fabs(dot(offset, panel.frame.x_axis)) <= kJointReach_m;
      if (opposite && same_plane && near) found = {Meeting::straight, &other, distance};
    } else if (std::fabs(along) < kSquare) {
      const Vec3 into_panel = panel.frame.x_axis * (side == Side::left ? 1.0 : -1.0);
      const bool external = dot(other.frame.y_axis, into_panel) < 0.0;
      found = {external ? Meeting::external_corner : Meeting::internal_corner, &other, distance};
    }
  }
  return found;
}

/// In the same plane, with a common width.
bool in_line(const Panel& panel, const Panel& other) {
  if (dot(panel.frame.y_axis, other.frame.y_axis) <= kParallel) return false;
  const Vec3 left = edge_point(other, Side::left) - edge_point(panel, Side::left);
  if (std::fabs(dot(left, panel.frame.y_axis)) > kPlaneReach_m) return false;
  const double start = dot(left, panel.frame.x_axis);
  const double shared = std::min(panel.width_m.value, start + other.width_m.value) - std::max(0.0, start);
  return shared >= 0.5 * std::min(panel.width_m.value, other.width_m.value);
}

}  // namespace

Neighbour neighbour_at(const Panel& panel, Side side, const Project& project) {
  Neighbour nearest;
  for (const Panel& other : project.panels) {
    if (&other == &panel || !side_by_side(panel, other)) continue;
    const Neighbour found = meet(panel, side, other);
    if (found.panel == nullptr) continue;
    // A joint goes before a corner: the panel round the corner may be as near.
    const bool straighter = found.meeting == Meeting::straight && nearest.meeting != Meeting::straight;
    const bool as_straight = (found.meeting == Meeting::straight) == (nearest.meeting == Meeting::straight);
    if (nearest.panel == nullptr || straighter || (as_straight && found.distance_m < nearest.distance_m)) {
      nearest = found;
    }
  }
  return nearest;
}

bool continues_above(const Panel& panel, const Project& project) {
  return std::any_of(project.panels.begin(), project.panels.end(), [&](const Panel& other) {
    return &other != &panel && std::fabs(foot_m(other) - head_m(panel)) <= kVerticalReach_m && in_line(panel, other);
  });
}

bool continues_below(const Panel& panel, const Project& project) {
  return std::any_of(project.panels.begin(), project.panels.end(), [&](const Panel& other) {
    return &other != &panel && std::fabs(head_m(other) - foot_m(panel)) <= kVerticalReach_m && in_line(panel, other);
  });
}

}  // namespace panel_dossier::thermal
