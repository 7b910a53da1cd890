#include "core/intake/panels/shape_reader.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "core/intake/graph/vocabulary.h"

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

bool is_read_profile(const Element& profile) {
  const std::string_view type = ifc_type(profile);
  return type == "IfcRectangleProfileDef" || type == "IfcArbitraryClosedProfileDef" || type == "IfcIShapeProfileDef";
}

/// The outline of a profile in its plane, without the first point repeated. Faults are reported; none then. A profile
/// form that is not read gives none without a report: see `is_read_profile`.
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

// Copies of copies of a shape: two levels are met in practice; more would only serve to blow the export up.
constexpr int kMaxMappedDepth = 4;
// A direction this close to the plane of the profile gives a solid without volume.
constexpr double kMinRise = 1e-6;

bool is_body(const std::string& identifier) {
  return identifier == "Body" || identifier.empty();
}

}  // namespace

std::optional<Box3> Shape::bounds() const {
  std::optional<Box3> all;
  for (const std::vector<Extrusion>* items : {&solids, &boxes}) {
    for (const Extrusion& item : *items) all = all ? united(*all, item.bounds()) : item.bounds();
  }
  return all;
}

Shape Shape::moved(const Frame& from, const Frame& to) const {
  Shape shape = *this;
  for (std::vector<Extrusion>* items : {&shape.solids, &shape.boxes}) {
    for (Extrusion& item : *items) item.frame = to.to_local(from.to_parent(item.frame));
  }
  return shape;
}

double Shape::volume_m3() const {
  return std::accumulate(solids.begin(), solids.end(), 0.0,
                         [](double sum, const Extrusion& solid) { return sum + solid.volume_m3(); });
}

Shape ShapeReader::of_product(const Element& product) {
  Shape shape;
  const Element definition = context_.graph.entity(product, "Representation");
  if (!definition) return shape;
  const std::vector<Element> representations = context_.graph.entities(definition, "Representations");
  for (const Element& representation : representations) {
    if (is_body(context_.graph.text(representation, "RepresentationIdentifier"))) {
      add_representation(representation, Frame{}, 0, shape);
    }
  }
  if (!shape.is_empty()) return shape;
  for (const Element& representation : representations) {
    if (context_.graph.text(representation, "RepresentationIdentifier") == "Box") {
      add_representation(representation, Frame{}, 0, shape);
    }
  }
  return shape;
}

void ShapeReader::add_representation(const Element& representation, const Frame& frame, int depth, Shape& shape) {
  for (const Element& item : context_.graph.entities(representation, "Items")) {
    if (!context_.budget.take(1)) return;
    add_item(item, frame, depth, shape);
  }
}

void ShapeReader::add_item(const Element& item, const Frame& frame, int depth, Shape& shape) {
  const std::string_view type = ifc_type(item);
  if (type == "IfcExtrudedAreaSolid") {
    add_extrusion(item, frame, shape);
  } else if (type == "IfcBoundingBox") {
    add_bounding_box(item, frame, shape);
  } else if (type == "IfcMappedItem" && depth < kMaxMappedDepth) {
    add_mapped_item(item, frame, depth, shape);
  } else {
    ++unread_[std::string(type)];
  }
}

void ShapeReader::add_mapped_item(const Element& item, const Frame& frame, int depth, Shape& shape) {
  const Element source = context_.graph.entity(item, "MappingSource");
  if (!source) return;
  const auto origin = placements_.axis_placement(context_.graph.entity(source, "MappingOrigin"));
  const auto target = placements_.transformation(context_.graph.entity(item, "MappingTarget"));
  if (!origin || !target) return;
  // The origin of the map is brought onto the target, so the shape goes through the origin's inverse first.
  const Frame moved = frame.to_parent(target->to_parent(origin->to_local(Frame{})));
  add_representation(context_.graph.entity(source, "MappedRepresentation"), moved, depth + 1, shape);
}

void ShapeReader::add_extrusion(const Element& item, const Frame& frame, Shape& shape) {
  const Element profile = context_.graph.entity(item, "SweptArea");
  if (!profile) {
    context_.report.error(item, "has no SweptArea", "export the profile with the solid");
    return;
  }
  if (!is_read_profile(profile)) {
    ++unread_[std::string(ifc_type(profile))];
    return;
  }
  auto outline = read_profile(context_, placements_, length_factor_, profile);
  const auto position = placements_.axis_placement(context_.graph.entity(item, "Position"));
  const Element direction_entity = context_.graph.entity(item, "ExtrudedDirection");
  const auto direction = direction_entity ? placements_.direction(direction_entity) : Vec3{0.0, 0.0, 1.0};
  const auto depth = required_number(context_, item, "Depth");
  if (!outline || !position || !direction || !depth) return;
  if (*depth <= 0.0) {
    context_.report.error(item, "Depth is not greater than zero", "give the length of the extrusion");
    return;
  }
  if (std::abs(direction->z) < kMinRise) {
    context_.report.error(item, "ExtrudedDirection lies in the plane of the profile", "let it point out of the plane");
    return;
  }
  Extrusion solid{std::move(*outline), frame.to_parent(*position), *direction, *depth * length_factor_};
  shape.solids.push_back(std::move(solid));
}

void ShapeReader::add_bounding_box(const Element& item, const Frame& frame, Shape& shape) {
  const Element corner_entity = context_.graph.entity(item, "Corner");
  const auto corner = corner_entity ? placements_.point(corner_entity) : Vec3{};
  const auto x = required_number(context_, item, "XDim");
  const auto y = required_number(context_, item, "YDim");
  const auto z = required_number(context_, item, "ZDim");
  if (!corner || !x || !y || !z) return;
  if (*x <= 0.0 || *y <= 0.0 || *z <= 0.0) {
    context_.report.error(item, "a dimension of the box is not greater than zero", "give XDim, YDim and ZDim");
    return;
  }
  const Vec3 size = Vec3{*x, *y, *z} * length_factor_;
  Frame at = frame;
  at.origin = frame.to_parent(*corner);
  shape.boxes.push_back({{{0.0, 0.0}, {size.x, 0.0}, {size.x, size.y}, {0.0, size.y}}, at, {0.0, 0.0, 1.0}, size.z});
}

}  // namespace panel_dossier
