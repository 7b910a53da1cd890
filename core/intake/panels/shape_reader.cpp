#include "core/intake/panels/shape_reader.h"

#include <cmath>
#include <numeric>
#include <utility>

#include "core/intake/graph/entity_type.h"
#include "core/intake/panels/profile_reader.h"

namespace panel_dossier {

namespace {

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
