#include "core/intake/panels/profile_reader.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "core/intake/graph/entity_type.h"

namespace panel_dossier {

namespace {

// Points closer than a hundredth of a millimetre are one: exporters round to 0.01 mm at best.
constexpr double kSamePoint_m = 1e-5;

bool is_same(const Vec2& a, const Vec2& b) {
  return std::abs(a.x - b.x) < kSamePoint_m && std::abs(a.y - b.y) < kSamePoint_m;
}

std::optional<double> size(const ReadContext& context, const Element& profile, std::string_view attribute,
                           double length_factor) {
  const auto value = required_number(context, profile, attribute);
  if (!value) return std::nullopt;
  if (*value <= 0.0) {
    context.report.error(profile, std::string(attribute) + " is not greater than zero", "give the size of the profile");
    return std::nullopt;
  }
  return *value * length_factor;
}

std::optional<Polygon> rectangle(const ReadContext& context, double length_factor, const Element& profile) {
  const auto x = size(context, profile, "XDim", length_factor);
  const auto y = size(context, profile, "YDim", length_factor);
  if (!x || !y) return std::nullopt;
  const double a = *x / 2.0;
  const double b = *y / 2.0;
  return Polygon{{-a, -b}, {a, -b}, {a, b}, {-a, b}};
}

/// An I-shaped section, as joists with timber flanges have; fillets are left out.
std::optional<Polygon> i_shape(const ReadContext& context, double length_factor, const Element& profile) {
  const auto width = size(context, profile, "OverallWidth", length_factor);
  const auto depth = size(context, profile, "OverallDepth", length_factor);
  const auto web = size(context, profile, "WebThickness", length_factor);
  const auto flange = size(context, profile, "FlangeThickness", length_factor);
  if (!width || !depth || !web || !flange) return std::nullopt;
  if (*web > *width || 2.0 * *flange > *depth) {
    context.report.error(profile, "web or flanges are larger than the section", "check the sizes of the profile");
    return std::nullopt;
  }
  const double b = *width / 2.0;
  const double h = *depth / 2.0;
  const double w = *web / 2.0;
  const double f = h - *flange;
  return Polygon{{-b, -h}, {b, -h}, {b, -f}, {w, -f}, {w, f},   {b, f},
                 {b, h},   {-b, h}, {-b, f}, {-w, f}, {-w, -f}, {-b, -f}};
}

Polygon polyline(const ReadContext& context, const PlacementReader& placements, const Element& curve) {
  Polygon points;
  const std::vector<Element> entities = context.graph.entities(curve, "Points");
  if (!context.budget.take(entities.size())) return points;
  for (const Element& entity : entities) {
    const auto point = placements.point(entity);
    if (!point) return {};
    points.push_back({point->x, point->y});
  }
  return points;
}

/// The points in the order in which the segments visit them.
Polygon ordered_by_segments(const ReadContext& context, const Element& curve, const Polygon& points) {
  const auto order = numbers(context, curve, "Segments");
  if (!order || order->empty()) return points;
  Polygon ordered;
  for (const double index : *order) {
    if (index < 1.0 || index > static_cast<double>(points.size())) {
      context.report.error(curve, "Segments name a point that is not in the list", "count the points from 1");
      return {};
    }
    const Vec2& point = points[static_cast<std::size_t>(index) - 1];
    if (ordered.empty() || !is_same(ordered.back(), point)) ordered.push_back(point);
  }
  return ordered;
}

Polygon indexed_curve(const ReadContext& context, double length_factor, const Element& curve) {
  const Element list = context.graph.entity(curve, "Points");
  const auto coordinates = list ? numbers(context, list, "CoordList") : std::nullopt;
  if (!coordinates || coordinates->size() % 2 != 0 || !context.budget.take(coordinates->size())) return {};
  Polygon points;
  for (std::size_t i = 0; i + 1 < coordinates->size(); i += 2) {
    points.push_back({(*coordinates)[i] * length_factor, (*coordinates)[i + 1] * length_factor});
  }
  return ordered_by_segments(context, curve, points);
}

std::optional<Polygon> closed_curve(const ReadContext& context, const PlacementReader& placements, double length_factor,
                                    const Element& profile) {
  const Element curve = context.graph.entity(profile, "OuterCurve");
  Polygon points = ifc_type(curve) == "IfcIndexedPolyCurve" ? indexed_curve(context, length_factor, curve)
                                                            : polyline(context, placements, curve);
  while (points.size() > 1 && is_same(points.front(), points.back())) points.pop_back();
  if (points.size() < 3 || !(area(points) > 0.0)) {
    context.report.error(profile, "the outline of the profile encloses no area",
                         "give a closed curve of 3 points or more");
    return std::nullopt;
  }
  return points;
}

}  // namespace

bool is_read_profile(const Element& profile) {
  const std::string_view type = ifc_type(profile);
  return type == "IfcRectangleProfileDef" || type == "IfcArbitraryClosedProfileDef" || type == "IfcIShapeProfileDef";
}

std::optional<Polygon> read_profile(const ReadContext& context, const PlacementReader& placements, double length_factor,
                                    const Element& profile) {
  const std::string_view type = ifc_type(profile);
  if (type == "IfcArbitraryClosedProfileDef") return closed_curve(context, placements, length_factor, profile);
  std::optional<Polygon> outline;
  if (type == "IfcRectangleProfileDef") outline = rectangle(context, length_factor, profile);
  if (type == "IfcIShapeProfileDef") outline = i_shape(context, length_factor, profile);
  const auto position = placements.axis_placement_2d(context.graph.entity(profile, "Position"));
  if (!outline || !position) return std::nullopt;
  for (Vec2& point : *outline) {
    const Vec3 moved = position->to_parent(Vec3{point.x, point.y, 0.0});
    point = {moved.x, moved.y};
  }
  return outline;
}

}  // namespace panel_dossier
