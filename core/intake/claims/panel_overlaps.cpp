#include "core/intake/claims/panel_overlaps.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "core/intake/panels/panel_size.h"

namespace panel_dossier {

namespace {

// Within 8 degrees: panels of one wall, or a copy of one that was turned a little.
constexpr double kParallelCosine = 0.99;
// Leaves of a double wall touch through membranes and soft insulation.
constexpr double kPressedTogether_m = 0.02;

struct PanelPlace {
  std::size_t index = 0;
  Box3 bounds;  ///< in the world
};

/// A size that quantities state has a property of a set as its origin, one of a shape the attribute that holds it.
bool stands_somewhere(const Panel& panel) {
  const std::string& property = panel.width_m.origin.property;
  return property == "Representation" || property == "IsDecomposedBy";
}

double coordinate(const Vec3& point, std::size_t axis) {
  return std::array{point.x, point.y, point.z}[axis];
}

/// The axis of the world along which the panels are spread farthest: fewest share a stretch of it.
std::size_t axis_of_spread(const std::vector<PanelPlace>& places) {
  Box3 all = places.front().bounds;
  for (const PanelPlace& place : places) all = united(all, place.bounds);
  const Vec3 size = all.size();
  if (size.x >= size.y && size.x >= size.z) return 0;
  return size.y >= size.z ? 1 : 2;
}

/// The box of `panel` along the axes of `frame`.
Box3 panel_box_in(const Frame& frame, const Panel& panel) {
  const Polygon foot = rectangle(0.0, 0.0, panel.width_m.value, panel.thickness_m.value);
  return Extrusion{foot, frame.to_local(panel.frame), {0.0, 0.0, 1.0}, panel.height_m.value}.bounds();
}

std::optional<std::string> overlap_of(const Panel& one, const Panel& other) {
  if (std::abs(dot(one.frame.y_axis, other.frame.y_axis)) < kParallelCosine) return std::nullopt;
  const Box3 own{{}, {one.width_m.value, one.thickness_m.value, one.height_m.value}};
  const auto both = intersection(own, panel_box_in(one.frame, other));
  if (!both) return std::nullopt;
  const Vec3 common = both->size();
  const double at_edge_m = kLapAllowance_m + kOutsideTolerance_m;
  if (common.x <= at_edge_m || common.z <= at_edge_m || common.y <= kPressedTogether_m) return std::nullopt;
  return "panels '" + one.mark + "' (line " + std::to_string(one.origin.line) + ") and '" + other.mark + "' (line " +
         std::to_string(other.origin.line) + ") stand in one place: they share " + metres(common.x) +
         " of their width, " + metres(common.z) + " of their height and " + metres(common.y) + " of their thickness";
}

}  // namespace

std::vector<PanelOverlap> find_panel_overlaps(const Project& project) {
  std::vector<PanelPlace> places;
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    if (stands_somewhere(project.panels[i])) places.push_back({i, project.panels[i].world_bounds()});
  }
  std::vector<PanelOverlap> found;
  if (places.empty()) return found;
  const std::size_t axis = axis_of_spread(places);
  std::stable_sort(places.begin(), places.end(), [axis](const PanelPlace& a, const PanelPlace& b) {
    return coordinate(a.bounds.min, axis) < coordinate(b.bounds.min, axis);
  });
  std::vector<bool> is_told(project.panels.size(), false);
  // In this order only neighbours can overlap, until one starts beyond the other's end.
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double end_m = coordinate(places[i].bounds.max, axis);
    for (std::size_t k = i + 1; k < places.size() && coordinate(places[k].bounds.min, axis) < end_m; ++k) {
      const auto [one, other] = std::minmax(places[i].index, places[k].index);
      if ((is_told[one] && is_told[other]) || !intersection(places[i].bounds, places[k].bounds)) continue;
      auto text = overlap_of(project.panels[one], project.panels[other]);
      if (!text) continue;
      is_told[one] = is_told[other] = true;
      found.push_back({one, other, std::move(*text)});
    }
  }
  return found;
}

}  // namespace panel_dossier
