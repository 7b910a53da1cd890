#include "core/dossier/parts/key_plan.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <utility>

namespace panel_dossier {

namespace {

constexpr int kDirections = 8;

Vec3 corner(const Panel& panel, double x, double y, double z) {
  return panel.frame.to_parent(Vec3{x, y, z});
}

// A rectangle of the panel's own x-y plane, seen from above.
Polygon on_plan(const Panel& panel, double x_min, double x_max, double y_min, double y_max) {
  Polygon outline;
  for (const Vec2& point : rectangle(x_min, y_min, x_max, y_max)) {
    const Vec3 at = corner(panel, point.x, point.y, 0.0);
    outline.push_back({at.x, at.y});
  }
  return outline;
}

// A gap in the wall, and for a window two panes along it.
OpeningSign sign_on_plan(const Panel& panel, const Opening& opening) {
  const double thickness = panel.thickness_m.value;
  OpeningSign sign;
  sign.gap = on_plan(panel, opening.x_min_m, opening.x_max_m, 0.0, thickness);
  if (opening.filling_entity != "IfcWindow") return sign;
  for (const double share : {1.0 / 3.0, 2.0 / 3.0}) {
    const Vec3 from = corner(panel, opening.x_min_m, share * thickness, 0.0);
    const Vec3 to = corner(panel, opening.x_max_m, share * thickness, 0.0);
    sign.panes.emplace_back(Vec2{from.x, from.y}, Vec2{to.x, to.y});
  }
  return sign;
}

struct Heights {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
};

// Elevation of `storey` above the floor that the panel stands on; none where one of them is not known.
std::optional<double> above_own_floor(const Project& project, const Panel& panel, const Storey& storey) {
  if (!panel.storey) return std::nullopt;
  const Storey& own = project.storeys[*panel.storey];
  if (own.building != storey.building || !own.elevation_m || !storey.elevation_m) return std::nullopt;
  return storey.elevation_m->value - own.elevation_m->value;
}

// What a storey takes up of the panel, in heights above the panel's foot.
Heights heights_of_storey(const Project& project, const Panel& panel, std::size_t storey) {
  const auto floor = above_own_floor(project, panel, project.storeys[storey]);
  if (!floor) return {};
  Heights heights;
  if (storey != panel.storey) heights.low = *floor;
  for (const Storey& other : project.storeys) {
    const auto above = above_own_floor(project, panel, other);
    if (above && *above > *floor) heights.high = std::min(heights.high, *above);
  }
  return heights;
}

bool passes(const Project& project, const Panel& panel, const Storey& storey) {
  constexpr double kLeastReach = 1.0;  // metres above the floor: the height of a parapet and no more does not count
  const auto floor = above_own_floor(project, panel, storey);
  return floor && *floor > 0.0 && panel.height_m.value >= *floor + kLeastReach;
}

void add_to_plan(KeyView& view, const Project& project, std::size_t index, std::optional<std::size_t> storey) {
  const Panel& panel = project.panels[index];
  DrawnPolygon polygon;
  polygon.outline = on_plan(panel, 0.0, panel.width_m.value, 0.0, panel.thickness_m.value);
  view.drawing.polygons.push_back(std::move(polygon));
  view.panels.push_back(index);
  const Heights heights = storey ? heights_of_storey(project, panel, *storey) : Heights{};
  std::vector<OpeningSign>& signs = view.openings.emplace_back();
  for (const Opening& opening : panel.openings) {
    const double middle = (opening.z_min_m + opening.z_max_m) / 2.0;
    if (heights.low <= middle && middle < heights.high) signs.push_back(sign_on_plan(panel, opening));
  }
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

// A rectangle of the panel's own x-z plane, seen from outside: there its x axis runs to the left.
Polygon on_face(const Panel& panel, const Vec3& to_right, const Polygon& rectangle_xz) {
  Polygon outline;
  for (const Vec2& point : rectangle_xz) {
    const Vec3 at = corner(panel, point.x, panel.thickness_m.value, point.y);
    outline.push_back({dot(at, to_right), at.z});
  }
  return outline;
}

void add_to_face(KeyView& view, const Panel& panel, std::size_t index, const Vec3& to_right) {
  DrawnPolygon polygon;
  polygon.outline = on_face(panel, to_right, rectangle(0.0, 0.0, panel.width_m.value, panel.height_m.value));
  view.drawing.polygons.push_back(std::move(polygon));
  view.panels.push_back(index);
  std::vector<OpeningSign>& signs = view.openings.emplace_back();
  for (const Opening& opening : panel.openings) {
    OpeningSign sign;
    sign.gap = on_face(panel, to_right, rectangle(opening.x_min_m, opening.z_min_m, opening.x_max_m, opening.z_max_m));
    signs.push_back(std::move(sign));
  }
}

}  // namespace

void draw_opening(PdfDocument& pdf, std::size_t page, const OpeningSign& sign, const DrawingFrame& frame) {
  const Stroke thin{0.3, kInk, 0, 0};
  Polygon gap;
  for (const Vec2& point : sign.gap) gap.push_back(frame.on_page(point));
  pdf.polygon(page, gap, kWhite, thin);
  std::vector<Segment> panes;
  for (const auto& [from, to] : sign.panes) panes.emplace_back(frame.on_page(from), frame.on_page(to));
  pdf.segments(page, panes, thin);
}

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
    if (project.panels[i].storey == storey) add_to_plan(view, project, i, storey);
  }
  if (!storey) return view;
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    if (!passes(project, project.panels[i], project.storeys[*storey])) continue;
    add_to_plan(view, project, i, storey);
    ++view.from_below;
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
    add_to_face(by_direction[direction], panel, i, to_right[direction]);
  }
  std::vector<KeyView> views;
  for (auto& [direction, view] : by_direction) {
    view.title = "Face to the " + compass_point(direction * std::numbers::pi / 4.0) + ", seen from outside";
    views.push_back(std::move(view));
  }
  return views;
}

}  // namespace panel_dossier
