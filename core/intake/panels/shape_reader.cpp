#include "core/intake/panels/shape_reader.h"

#include <algorithm>
#include <numeric>
#include <string>
#include <utility>

#include "core/intake/graph/vocabulary.h"
#include "core/intake/panels/shapes/joined_prism.h"
#include "core/intake/panels/shapes/prism_form.h"

namespace panel_dossier {

namespace {

// Copies of copies of a shape: two levels are met in practice; more would only serve to blow the export up.
constexpr int kMaxMappedDepth = 4;

bool is_body(const std::string& identifier) {
  return identifier == "Body" || identifier.empty();
}

void turn_faces_over(Polyhedron& body) {
  for (BodyFace& face : body.faces) {
    for (FaceLoop& loop : face.loops) std::reverse(loop.begin(), loop.end());
  }
}

void move_body(Polyhedron& body, const Motion& motion) {
  for (Vec3& vertex : body.vertices) vertex = motion.point(vertex);
  if (motion.is_mirrored) turn_faces_over(body);
}

/// A prism without holes is a solid that all checks know; anything else stays a body.
void add_body(Polyhedron body, const Motion& motion, Shape& shape) {
  if (const auto form = prism_form(body); form && form->holes.empty()) {
    shape.solids.push_back(motion.extrusion(form->outer));
    return;
  }
  move_body(body, motion);
  shape.bodies.push_back(std::move(body));
}

void append(const Shape& more, Shape& shape) {
  shape.solids.insert(shape.solids.end(), more.solids.begin(), more.solids.end());
  shape.bodies.insert(shape.bodies.end(), more.bodies.begin(), more.bodies.end());
  shape.boxes.insert(shape.boxes.end(), more.boxes.begin(), more.boxes.end());
  shape.corners.insert(shape.corners.end(), more.corners.begin(), more.corners.end());
}

}  // namespace

std::optional<Box3> Shape::bounds() const {
  std::optional<Box3> all;
  const auto take = [&all](const Box3& box) { all = all ? united(*all, box) : box; };
  for (const Extrusion& solid : solids) take(solid.bounds());
  for (const Polyhedron& body : bodies) take(body.bounds());
  for (const Extrusion& box : boxes) take(box.bounds());
  for (const Vec3& corner : corners) take({corner, corner});
  return all;
}

Shape Shape::moved(const Frame& from, const Frame& to) const& {
  return Shape(*this).moved(from, to);
}

Shape Shape::moved(const Frame& from, const Frame& to) && {
  for (std::vector<Extrusion>* items : {&solids, &boxes}) {
    for (Extrusion& item : *items) item.frame = to.to_local(from.to_parent(item.frame));
  }
  const auto move = [&](Vec3& point) { point = to.to_local(from.to_parent(point)); };
  for (Polyhedron& body : bodies) std::for_each(body.vertices.begin(), body.vertices.end(), move);
  std::for_each(corners.begin(), corners.end(), move);
  return std::move(*this);
}

Shape Shape::moved(const Motion& motion) const {
  Shape shape = *this;
  for (std::vector<Extrusion>* items : {&shape.solids, &shape.boxes}) {
    for (Extrusion& item : *items) item = motion.extrusion(item);
  }
  for (Polyhedron& body : shape.bodies) move_body(body, motion);
  for (Vec3& corner : shape.corners) corner = motion.point(corner);
  return shape;
}

std::size_t Shape::corner_count() const {
  std::size_t count = corners.size() + boxes.size();
  for (const Extrusion& solid : solids) count += solid.outline.size();
  for (const Polyhedron& body : bodies) count += body.vertices.size() + 4 * body.faces.size();
  return count;
}

double Shape::volume_m3() const {
  const double of_solids = std::accumulate(solids.begin(), solids.end(), 0.0,
                                           [](double sum, const Extrusion& solid) { return sum + solid.volume_m3(); });
  return std::accumulate(bodies.begin(), bodies.end(), of_solids,
                         [](double sum, const Polyhedron& body) { return sum + body.volume_m3(); });
}

double Shape::volume_within_m3(const Box3& box) const {
  const std::vector<HalfSpace> sides = sides_of(box);
  double sum = 0.0;
  // What cannot be cut was refused when it was read.
  for (const Extrusion& solid : solids) sum += common_volume_m3(polyhedron_of(solid), sides).value_or(0.0);
  for (const Polyhedron& body : bodies) sum += common_volume_m3(body, sides).value_or(0.0);
  return sum;
}

std::optional<double> Shape::section_m2(const Frame& frame) const {
  double sum = 0.0;
  const auto take = [&](const Polyhedron& body) {
    const auto outlines = section(body, frame);
    if (!outlines) return false;
    for (const Polygon& outline : *outlines) sum += signed_area_m2(outline);
    return true;
  };
  for (const Extrusion& solid : solids) {
    if (!take(polyhedron_of(solid))) return std::nullopt;
  }
  for (const Polyhedron& body : bodies) {
    if (!take(body)) return std::nullopt;
  }
  return sum;
}

ShapeReader::ShapeReader(const ReadContext& context, const PlacementReader& placements, UnitTable& units,
                         OpenSurfaces open_surfaces)
    : context_(context),
      placements_(placements),
      units_(units),
      open_surfaces_(open_surfaces),
      extrusions_(context, placements, units, unread_),
      booleans_(context, placements, extrusions_, unread_),
      meshes_(context, placements, units.length_factor(), unread_) {}

Shape ShapeReader::of_product(const Element& product) {
  const Element definition = context_.graph.entity(product, "Representation");
  return definition ? of_definition(definition) : of_types(product);
}

Shape ShapeReader::of_definition(const Element& definition) {
  const auto [known, is_new] = definitions_.try_emplace(definition.key());
  if (!is_new && known->second) {
    const Shape* shape = use_again(*known->second);
    return shape == nullptr ? Shape{} : *shape;
  }
  Mapped read;
  UnreadShapes before;
  std::swap(before, unread_);
  read.shape = of_representations(context_.graph.entities(definition, "Representations"), {});
  std::swap(before, unread_);
  read.unread = std::move(before);
  for (const auto& [kind, count] : read.unread) unread_[kind] += count;
  if (is_new) return std::move(read.shape);
  return known->second.emplace(std::move(read)).shape;
}

const Shape* ShapeReader::use_again(const Mapped& mapped) {
  for (const auto& [kind, count] : mapped.unread) unread_[kind] += count;
  // Copying a shape costs little beside reading one.
  constexpr std::size_t kCornersAnItem = 16;
  return context_.budget.take(1 + mapped.shape.corner_count() / kCornersAnItem) ? &mapped.shape : nullptr;
}

Shape ShapeReader::of_representations(const std::vector<Element>& representations, const Motion& motion) {
  Shape shape;
  bool is_whole = true;
  for (const Element& representation : representations) {
    if (!is_body(context_.graph.text(representation, "RepresentationIdentifier"))) continue;
    is_whole = add_representation(representation, motion, 0, shape) && is_whole;
  }
  // Sizes and volume of a piece of a body are those of nothing.
  if (!is_whole) shape = {};
  if (!shape.is_empty()) return shape;
  for (const Element& representation : representations) {
    if (context_.graph.text(representation, "RepresentationIdentifier") == "Box") {
      add_representation(representation, motion, 0, shape);
    }
  }
  return shape;
}

/// The shapes that the type of the product declares for its occurrences, where the occurrence has none itself.
Shape ShapeReader::of_types(const Element& product) {
  for (const Element& type : context_.graph.linked(Link::type, product)) {
    Shape shape;
    for (const Element& map : context_.graph.entities(type, "RepresentationMaps")) {
      const auto origin = placements_.axis_placement(context_.graph.entity(map, "MappingOrigin"));
      const Element representation = context_.graph.entity(map, "MappedRepresentation");
      if (!origin || !representation || !shape.is_empty()) continue;
      shape = of_representations({representation}, {origin->to_local(Frame{}), false});
    }
    if (!shape.is_empty()) return shape;
  }
  return {};
}

bool ShapeReader::add_representation(const Element& representation, const Motion& motion, int depth, Shape& shape) {
  bool is_whole = true;
  for (const Element& item : context_.graph.entities(representation, "Items")) {
    if (!context_.budget.take(1)) return false;
    is_whole = add_item(item, motion, depth, shape) && is_whole;
  }
  return is_whole;
}

bool ShapeReader::add_item(const Element& item, const Motion& motion, int depth, Shape& shape) {
  const std::string_view type = ifc_type(item);
  if (type == "IfcExtrudedAreaSolid") return add_extrusion(item, motion, shape);
  if (is_boolean_type(type)) return add_difference(item, motion, shape);
  if (is_mesh_type(type)) return add_mesh(item, motion, shape);
  if (type == "IfcBoundingBox") return add_bounding_box(item, motion, shape);
  if (type == "IfcMappedItem" && depth < kMaxMappedDepth) return add_mapped_item(item, motion, depth, shape);
  count_unread(unread_, type);
  return false;
}

bool ShapeReader::add_mapped_item(const Element& item, const Motion& motion, int depth, Shape& shape) {
  const Element source = context_.graph.entity(item, "MappingSource");
  const Element target_entity = context_.graph.entity(item, "MappingTarget");
  if (!source || placements_.scales(target_entity)) {
    count_unread(unread_, ifc_type(item), source ? "scaled" : "without source");
    return false;
  }
  const auto origin = placements_.axis_placement(context_.graph.entity(source, "MappingOrigin"));
  const auto target = placements_.transformation(target_entity);
  if (!origin || !target) return false;
  // The origin of the map is brought onto the target, so the shape goes through the origin's inverse first.
  const Motion moved = motion.after(target->after({origin->to_local(Frame{}), false}));
  const Mapped& mapped = mapped_representation(context_.graph.entity(source, "MappedRepresentation"), depth);
  const Shape* copied = use_again(mapped);
  if (copied == nullptr || !mapped.is_whole) return false;
  append(copied->moved(moved), shape);
  return true;
}

const ShapeReader::Mapped& ShapeReader::mapped_representation(const Element& representation, int depth) {
  const auto known = mapped_.find(representation.key());
  if (known != mapped_.end()) return known->second;
  Mapped mapped;
  UnreadShapes before;
  std::swap(before, unread_);
  mapped.is_whole = add_representation(representation, {}, depth + 1, mapped.shape);
  std::swap(before, unread_);
  mapped.unread = std::move(before);
  return mapped_.insert_or_assign(representation.key(), std::move(mapped)).first->second;
}

bool ShapeReader::add_extrusion(const Element& item, const Motion& motion, Shape& shape) {
  const auto prism = extrusions_.read(item);
  if (!prism) return false;
  if (prism->holes.empty()) {
    shape.solids.push_back(motion.extrusion(prism->outer));
  } else {
    add_body(polyhedron_of(prism->outer, prism->holes), motion, shape);
  }
  return true;
}

bool ShapeReader::add_difference(const Element& item, const Motion& motion, Shape& shape) {
  const Element base = booleans_.base_of(item);
  if (!base) return false;
  Shape whole;
  const std::string_view type = ifc_type(base);
  if (type != "IfcExtrudedAreaSolid" && !is_mesh_type(type)) {
    count_unread(unread_, type);
    return false;
  }
  if (!add_item(base, {}, kMaxMappedDepth, whole)) return false;
  std::vector<Polyhedron> bodies = std::move(whole.bodies);
  for (const Extrusion& solid : whole.solids) bodies.push_back(polyhedron_of(solid));
  auto rest = booleans_.less_operands(item, std::move(bodies));
  if (!rest) return false;
  if (const auto form = rest->size() > 1 ? joined_prism(*rest) : std::nullopt) {
    *rest = {polyhedron_of(form->outer, form->holes)};
  }
  for (Polyhedron& body : *rest) add_body(std::move(body), motion, shape);
  return true;
}

bool ShapeReader::add_mesh(const Element& item, const Motion& motion, Shape& shape) {
  auto body = meshes_.faces(item);
  if (!body) return false;
  const std::string fault = fault_of_body(*body);
  if (!fault.empty() && open_surfaces_ == OpenSurfaces::bound) {
    for (const Vec3& vertex : body->vertices) shape.corners.push_back(motion.point(vertex));
    return true;
  }
  if (!fault.empty()) {
    count_unread(unread_, ifc_type(item), fault);
    return false;
  }
  if (body->volume_m3() < 0.0) turn_faces_over(*body);
  add_body(std::move(*body), motion, shape);
  return true;
}

bool ShapeReader::add_bounding_box(const Element& item, const Motion& motion, Shape& shape) {
  const Element corner_entity = context_.graph.entity(item, "Corner");
  const auto corner = corner_entity ? placements_.point(corner_entity) : Vec3{};
  const auto x = required_number(context_, item, "XDim");
  const auto y = required_number(context_, item, "YDim");
  const auto z = required_number(context_, item, "ZDim");
  if (!corner || !x || !y || !z) return false;
  if (*x <= 0.0 || *y <= 0.0 || *z <= 0.0) {
    context_.report.error(item, "a dimension of the box is not greater than zero", "give XDim, YDim and ZDim");
    return false;
  }
  const Vec3 size = Vec3{*x, *y, *z} * units_.length_factor();
  Frame at;
  at.origin = *corner;
  shape.boxes.push_back(motion.extrusion({rectangle(0.0, 0.0, size.x, size.y), at, {0.0, 0.0, 1.0}, size.z}));
  return true;
}

}  // namespace panel_dossier
