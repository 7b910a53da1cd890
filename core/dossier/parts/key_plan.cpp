#include "core/dossier/parts/key_plan.h"

#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

namespace panel_dossier {

namespace {

constexpr int kDirections = 8;

Vec3 corner(const Panel& panel, double x, double y, double z) {
  return panel.frame.to_parent(Vec3{x, y, z});
}

DrawnPolygon plan_outline(const Panel& panel) {
  const double width = panel.width_m.value;
  const double thickness = panel.thickness_m.value;
  DrawnPolygon polygon;
  for (const auto& [x, y] :
       std::array<std::pair<double, double>, 4>{{{0.0, 0.0}, {width, 0.0}, {width, thickness}, {0.0, thickness}}}) {
    const Vec3 at = corner(panel, x, y, 0.0);
    polygon.outline.push_back({at.x, at.y});
  }
  return polygon;
}

// Bearing of the outer face, clockwise from true north, in [0, 2π).
double outward_bearing(const Panel& panel, const Project& project) {
  const Vec3 out = panel.frame.y_axis;
  const double from_project_north = std::atan2(out.x, out.y);
  const double bearing = from_project_north + project.true_north_rad;
  const double full = 2.0 * std::numbers::pi;
  return std::fmod(std::fmod(bearing, full) + full, full);
}

int sector(double bearing_rad) {
  return static_cast<int>(std::lround(bearing_rad / (std::numbers::pi / 4.0))) % kDirections;
}

// Seen from outside the panel's own x axis runs to the left.
DrawnPolygon facade_outline(const Panel& panel, const Vec3& to_right) {
  const double width = panel.width_m.value;
  const double height = panel.height_m.value;
  DrawnPolygon polygon;
  for (const auto& [x, z] :
       std::array<std::pair<double, double>, 4>{{{0.0, 0.0}, {width, 0.0}, {width, height}, {0.0, height}}}) {
    const Vec3 at = corner(panel, x, panel.thickness_m.value, z);
    polygon.outline.push_back({dot(at, to_right), at.z});
  }
  return polygon;
}

}  // namespace

std::string compass_point(double bearing_rad) {
  static constexpr std::array<const char*, kDirections> kNames{"north", "north-east", "east", "south-east",
                                                               "south", "south-west", "west", "north-west"};
  const double full = 2.0 * std::numbers::pi;
  const double positive = std::fmod(std::fmod(bearing_rad, full) + full, full);
  return kNames[static_cast<std::size_t>(sector(positive))];
}

KeyView storey_plan(const Project& project, std::optional<std::size_t> storey) {
  KeyView view;
  view.title = storey ? project.storeys[*storey].name : "Without a storey";
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    if (project.panels[i].storey != storey) continue;
    view.drawing.polygons.push_back(plan_outline(project.panels[i]));
    view.panels.push_back(i);
  }
  return view;
}

std::vector<KeyView> facade_views(const Project& project) {
  std::map<int, KeyView> by_direction;
  std::map<int, Vec3> to_right;
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    const Panel& panel = project.panels[i];
    if (!panel.outside_known || std::fabs(panel.frame.z_axis.z) < 0.9) continue;
    const int direction = sector(outward_bearing(panel, project));
    to_right.try_emplace(direction, panel.frame.x_axis * -1.0);
    KeyView& view = by_direction[direction];
    view.drawing.polygons.push_back(facade_outline(panel, to_right[direction]));
    view.panels.push_back(i);
  }
  std::vector<KeyView> views;
  for (auto& [direction, view] : by_direction) {
    view.title = "Face to the " + compass_point(direction * std::numbers::pi / 4.0) + ", seen from outside";
    views.push_back(std::move(view));
  }
  return views;
}

}  // namespace panel_dossier
