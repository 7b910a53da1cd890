#include "sample_project/generator/ifc_writer.h"

#include <array>
#include <cstdint>
#include <utility>

namespace sample_export {

namespace {

constexpr std::string_view kAlphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_$";

std::uint64_t fnv1a(std::string_view text, std::uint64_t hash) {
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
  // FNV leaves the high bits of short texts poorly mixed; this is the usual 64-bit finaliser.
  hash = (hash ^ (hash >> 30U)) * 0xbf58476d1ce4e5b9ULL;
  hash = (hash ^ (hash >> 27U)) * 0x94d049bb133111ebULL;
  return hash ^ (hash >> 31U);
}

std::array<unsigned char, 16> uuid_bytes(std::string_view path) {
  const std::uint64_t high = fnv1a(path, 0xcbf29ce484222325ULL);
  const std::uint64_t low = fnv1a(path, high ^ 0x9e3779b97f4a7c15ULL);
  std::array<unsigned char, 16> bytes{};
  for (unsigned i = 0; i < 8; ++i) {
    bytes[i] = static_cast<unsigned char>(high >> (56U - 8U * i));
    bytes[8 + i] = static_cast<unsigned char>(low >> (56U - 8U * i));
  }
  bytes[6] = static_cast<unsigned char>((bytes[6] & 0x0fU) | 0x80U);
  bytes[8] = static_cast<unsigned char>((bytes[8] & 0x3fU) | 0x80U);
  return bytes;
}

void append_base64(std::string& text, unsigned value, unsigned characters) {
  for (unsigned i = characters; i-- > 0;) text += kAlphabet[(value >> (6U * i)) & 0x3fU];
}

}  // namespace

std::string global_id(std::string_view path) {
  const auto bytes = uuid_bytes(path);
  std::string text;
  append_base64(text, bytes[0], 2);
  for (std::size_t i = 1; i < bytes.size(); i += 3) {
    append_base64(text, (unsigned{bytes[i]} << 16U) | (unsigned{bytes[i + 1]} << 8U) | bytes[i + 2], 4);
  }
  return text;
}

namespace {

Attributes shape_attributes(const char* identifier, const char* type) {
  return {{"RepresentationIdentifier", identifier}, {"RepresentationType", type}};
}

std::string triple(const Point& point) {
  return mm_text(point.x) + " " + mm_text(point.y) + " " + mm_text(point.z);
}

bool is_default(const Placement& placement) {
  return placement.z_axis.z == 1.0 && placement.x_axis.x == 1.0;
}

/// Sides of the section and the extruded length, in the order of the placement of `box_placement`.
struct SweptSizes {
  double x;
  double y;
  double depth;
};

SweptSizes swept_sizes(const Box& box, Axis axis) {
  switch (axis) {
    case Axis::x: return {box.height(), box.depth(), box.width()};
    case Axis::y: return {box.width(), box.height(), box.depth()};
    case Axis::z: break;
  }
  return {box.width(), box.depth(), box.height()};
}

}  // namespace

void IfcWriter::cartesian_point(const std::string& attribute, const Point& point) {
  out.leaf(attribute, {{"Coordinates", triple(point)}});
}

void IfcWriter::direction(const std::string& attribute, const Point& ratios) {
  out.leaf(attribute, {{"DirectionRatios", triple(ratios)}});
}

void IfcWriter::axis_placement_content(const Placement& placement) {
  cartesian_point("Location", placement.origin);
  if (is_default(placement)) return;
  direction("Axis", placement.z_axis);
  direction("RefDirection", placement.x_axis);
}

void IfcWriter::local_placement(const std::string& id, const std::string& relative_to, const Placement& placement) {
  Attributes attributes{{"xsi:type", "IfcLocalPlacement"}};
  if (!id.empty()) attributes.emplace_back("id", id);
  const auto local = out.element("ObjectPlacement", attributes);
  if (!relative_to.empty()) out.reference("PlacementRelTo", relative_to, "IfcLocalPlacement");
  const auto relative = out.element("RelativePlacement");
  const auto axes = out.element("IfcAxis2Placement3D");
  axis_placement_content(placement);
}

void IfcWriter::property(const Property& property) {
  const auto single = out.element("IfcPropertySingleValue", {{"Name", property.name}});
  {
    const auto value = out.element("NominalValue");
    out.text_element(property.measure + "-wrapper", property.value);
  }
  if (property.unit_id.empty()) return;
  const auto unit = out.element("Unit");
  out.reference("IfcSIUnit", property.unit_id);
}

void IfcWriter::property_set(const std::string& owner, const PropertySet& set) {
  const auto element =
      out.element("IfcPropertySet", {{"GlobalId", global_id(owner + "/" + set.name)}, {"Name", set.name}});
  const auto properties = out.element("HasProperties");
  for (const Property& single : set.properties) property(single);
}

void IfcWriter::defining_properties(const std::string& owner, const PropertySet& set) {
  const auto relation =
      out.element("IfcRelDefinesByProperties", {{"GlobalId", global_id(owner + "/" + set.name + "/defines")}});
  const auto relating = out.element("RelatingPropertyDefinition");
  property_set(owner, set);
}

void IfcWriter::typed_by(const std::string& owner, const std::string& type_entity, const std::string& type_id) {
  const auto typed = out.element("IsTypedBy");
  const auto relation = out.element("IfcRelDefinesByType", {{"GlobalId", global_id(owner + "/typed-by")}});
  out.reference("RelatingType", type_id, type_entity);
}

void IfcWriter::shared_material(const std::string& material_entity, const std::string& material_id) {
  const std::string id = "of-" + material_id;
  if (!first_use(id)) return out.reference("IfcRelAssociatesMaterial", id);
  const auto relation = out.element("IfcRelAssociatesMaterial", {{"id", id}, {"GlobalId", global_id(id)}});
  const auto relating = out.element("RelatingMaterial");
  out.reference(material_entity, material_id);
}

void IfcWriter::shared_document(const std::string& document_id) {
  const std::string id = "evidenced-by-" + document_id;
  if (!first_use(id)) return out.reference("IfcRelAssociatesDocument", id);
  const auto relation = out.element("IfcRelAssociatesDocument", {{"id", id}, {"GlobalId", global_id(id)}});
  const auto relating = out.element("RelatingDocument");
  out.reference("IfcDocumentReference", "document-" + document_id);
}

void IfcWriter::part_shape(const PanelPart& part) {
  const SweptSizes sizes = swept_sizes(part.box, part.axis);
  const bool is_box = part.outline.empty();
  Attributes attributes{{"xsi:type", "IfcProductDefinitionShape"}};
  if (is_box) {
    const std::string id = "shape-" + mm_text(sizes.x) + "x" + mm_text(sizes.y) + "x" + mm_text(sizes.depth);
    if (!first_use(id)) return out.reference("Representation", id, "IfcProductDefinitionShape");
    attributes.emplace_back("id", id);
  }
  const auto representation = out.element("Representation", attributes);
  const auto representations = out.element("Representations");
  const auto shape = out.element("IfcShapeRepresentation", shape_attributes("Body", "SweptSolid"));
  context("context-body");
  const auto items = out.element("Items");
  if (is_box) {
    rectangle_solid(sizes.x, sizes.y, sizes.depth, nullptr);
  } else {
    outline_solid(part);
  }
}

void IfcWriter::rectangle_solid(double x_dim, double y_dim, double depth, const Point* section_centre) {
  const auto solid = out.element("IfcExtrudedAreaSolid", {{"Depth", mm_text(depth)}});
  out.leaf("SweptArea", {{"xsi:type", "IfcRectangleProfileDef"},
                         {"ProfileType", "area"},
                         {"XDim", mm_text(x_dim)},
                         {"YDim", mm_text(y_dim)}});
  if (section_centre != nullptr) {
    const auto position = out.element("Position");
    axis_placement_content({*section_centre});
  }
  out.reference("ExtrudedDirection", "direction-up");
}

void IfcWriter::outline_solid(const PanelPart& part) {
  const auto solid = out.element("IfcExtrudedAreaSolid", {{"Depth", mm_text(swept_sizes(part.box, part.axis).depth)}});
  {
    const auto area = out.element("SweptArea", {{"xsi:type", "IfcArbitraryClosedProfileDef"}, {"ProfileType", "area"}});
    const auto curve = out.element("OuterCurve", {{"xsi:type", "IfcPolyline"}});
    const auto points = out.element("Points");
    const Point centre = box_placement(part.box, part.axis).origin;
    for (std::size_t i = 0; i <= part.outline.size(); ++i) {
      const Corner& corner = part.outline[i % part.outline.size()];
      // Where its z axis points out of the panel, the section's y axis points down; where along the panel, inwards.
      const std::string coordinates = part.axis == Axis::x
                                          ? mm_text(corner.z - centre.z) + " " + mm_text(centre.y - corner.across)
                                          : mm_text(corner.across - centre.x) + " " + mm_text(centre.z - corner.z);
      out.leaf("IfcCartesianPoint", {{"Coordinates", coordinates}});
    }
  }
  out.reference("ExtrudedDirection", "direction-up");
}

void IfcWriter::block_shape(double width_mm, double depth_mm, double height_mm) {
  const auto representation = out.element("Representation", {{"xsi:type", "IfcProductDefinitionShape"}});
  const auto representations = out.element("Representations");
  body(width_mm, depth_mm, height_mm);
}

void IfcWriter::wall_shape(double width_mm, double depth_mm, double height_mm) {
  const auto representation = out.element("Representation", {{"xsi:type", "IfcProductDefinitionShape"}});
  const auto representations = out.element("Representations");
  axis(width_mm);
  body(width_mm, depth_mm, height_mm);
}

void IfcWriter::body(double width_mm, double depth_mm, double height_mm) {
  const auto shape = out.element("IfcShapeRepresentation", shape_attributes("Body", "SweptSolid"));
  context("context-body");
  const auto items = out.element("Items");
  const Point centre{width_mm / 2.0, depth_mm / 2.0, 0.0};
  rectangle_solid(width_mm, depth_mm, height_mm, &centre);
}

void IfcWriter::axis(double width_mm) {
  const auto shape = out.element("IfcShapeRepresentation", shape_attributes("Axis", "Curve2D"));
  context("context-axis");
  const auto items = out.element("Items");
  const auto line = out.element("IfcPolyline");
  const auto points = out.element("Points");
  out.leaf("IfcCartesianPoint", {{"Coordinates", "0 0"}});
  out.leaf("IfcCartesianPoint", {{"Coordinates", mm_text(width_mm) + " 0"}});
}

void IfcWriter::box_shape(const Box& box) {
  const auto representation = out.element("Representation", {{"xsi:type", "IfcProductDefinitionShape"}});
  const auto representations = out.element("Representations");
  const auto shape = out.element("IfcShapeRepresentation", shape_attributes("Box", "BoundingBox"));
  context("context-box");
  const auto items = out.element("Items");
  const auto bounds =
      out.element("IfcBoundingBox",
                  {{"XDim", mm_text(box.width())}, {"YDim", mm_text(box.depth())}, {"ZDim", mm_text(box.height())}});
  cartesian_point("Corner", {});
}

void IfcWriter::context(const std::string& id) {
  out.reference("ContextOfItems", id, "IfcGeometricRepresentationSubContext");
}

Placement box_placement(const Box& box, Axis axis) {
  const Point middle{(box.min.x + box.max.x) / 2.0, (box.min.y + box.max.y) / 2.0, (box.min.z + box.max.z) / 2.0};
  switch (axis) {
    case Axis::x: return {{box.min.x, middle.y, middle.z}, {1.0, 0.0, 0.0}, {0.0, 0.0, 1.0}};
    case Axis::y: return {{middle.x, box.min.y, middle.z}, {0.0, 1.0, 0.0}, {1.0, 0.0, 0.0}};
    case Axis::z: break;
  }
  return {{middle.x, middle.y, box.min.z}, {0.0, 0.0, 1.0}, {1.0, 0.0, 0.0}};
}

std::string mm_text(double value_mm) {
  return rounded_text(value_mm, 4);
}

std::string type_id(std::string_view key) {
  return "type-" + std::string(key);
}

std::string layer_set_id(std::string_view type_key) {
  return "layers-" + std::string(type_key);
}

std::string material_id(std::string_view key) {
  return "material-" + std::string(key);
}

std::string profile_set_id(double width_mm, double depth_mm, std::string_view material_key) {
  return "section-" + mm_text(width_mm) + "x" + mm_text(depth_mm) + "-" + std::string(material_key);
}

}  // namespace sample_export
