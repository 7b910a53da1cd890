#include "core/intake/panels/part_reader.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/graph/vocabulary.h"
#include "core/intake/panels/classification_reader.h"
#include "core/intake/panels/placement.h"

namespace panel_dossier {

namespace {

using namespace std::string_view_literals;

// Enumerators of IfcMemberTypeEnum, IfcPlateTypeEnum, IfcCoveringTypeEnum and IfcBuildingElementPartTypeEnum that
// panels use, and the trade's words where the standard has none (common practice).
constexpr std::array kByToken{
    std::pair{"STUD"sv, PartKind::stud},         std::pair{"POST"sv, PartKind::post},
    std::pair{"COLUMN"sv, PartKind::post},       std::pair{"PLATE"sv, PartKind::rail},
    std::pair{"RAIL"sv, PartKind::rail},         std::pair{"LINTEL"sv, PartKind::lintel},
    std::pair{"HEADER"sv, PartKind::lintel},     std::pair{"BLOCKING"sv, PartKind::blocking},
    std::pair{"NOGGING"sv, PartKind::blocking},  std::pair{"DWANG"sv, PartKind::blocking},
    std::pair{"TRIMMER"sv, PartKind::blocking},  std::pair{"SILL"sv, PartKind::blocking},
    std::pair{"BATTEN"sv, PartKind::batten},     std::pair{"COUNTERBATTEN"sv, PartKind::batten},
    std::pair{"SHEET"sv, PartKind::sheet},       std::pair{"SHEATHING"sv, PartKind::sheet},
    std::pair{"BOARD"sv, PartKind::sheet},       std::pair{"LINING"sv, PartKind::sheet},
    std::pair{"MEMBRANE"sv, PartKind::membrane}, std::pair{"INSULATION"sv, PartKind::insulation},
    std::pair{"CLADDING"sv, PartKind::cladding},
};

std::optional<PartKind> find_token(std::string_view token) {
  const auto found =
      std::find_if(kByToken.begin(), kByToken.end(), [token](const auto& entry) { return entry.first == token; });
  if (found == kByToken.end()) return std::nullopt;
  return found->second;
}

/// `JACK_STUD` and `HEAD_PLATE`: the last word says what it is, the ones before it which.
std::optional<PartKind> find_last_word(std::string_view token) {
  if (const auto whole = find_token(token)) return whole;
  const std::size_t underscore = token.rfind('_');
  return underscore == std::string_view::npos ? std::nullopt : find_token(token.substr(underscore + 1));
}

bool is_fastener(std::string_view entity) {
  return entity == "IfcMechanicalFastener" || entity == "IfcFastener" || entity == "IfcDiscreteAccessory";
}

/// `entity` is the IFC entity; `token` its PredefinedType or, where the standard has no fitting value, its ObjectType,
/// as `enumeration_token` writes it; may be empty.
PartKind part_kind(std::string_view entity, std::string_view token) {
  if (is_fastener(entity)) return PartKind::fastener;
  const bool is_plate = entity == "IfcPlate" || entity == "IfcPlateStandardCase";
  // IfcPlate is a flat board whatever its type says; PLATE of an IfcMember is the head or sole plate of a frame.
  if (is_plate) return token == "CURTAIN_PANEL" ? PartKind::other : PartKind::sheet;
  if (const auto kind = find_last_word(token)) return *kind;
  return entity == "IfcColumn" ? PartKind::post : PartKind::other;
}

// Exporters round to a litre, and faces stand in for curves.
constexpr double kVolumeTolerance_m3 = 0.001;
constexpr double kVolumeShare = 0.05;

// A panel holds thousands of fixings at most; more is a quantity in the wrong unit.
constexpr double kMaxCount = 1e6;

bool is_stated(const std::string& predefined_type) {
  const std::string token = enumeration_token(predefined_type);
  return !token.empty() && token != "USERDEFINED" && token != "NOTDEFINED";
}

/// The standard has no quantity set for fasteners, so theirs is our own. IFC2x3 names all of them alike.
bool is_quantity_set_name(std::string_view full_name) {
  return full_name.starts_with("Qto_") || full_name.starts_with("BaseQuantities") ||
         full_name.starts_with("Panel_FastenerQuantities.");
}

/// A number of any quantity set, by the name of the quantity alone: the set's name depends on the entity.
std::optional<Sourced<double>> quantity_of(const Properties& properties, std::string_view name) {
  for (const auto& [full_name, property] : properties.all()) {
    const std::size_t dot = full_name.rfind('.');
    if (!is_quantity_set_name(full_name)) continue;
    if (full_name.substr(dot + 1) != name) continue;
    if (const double* value = std::get_if<double>(&property.value)) return Sourced<double>{*value, property.origin};
  }
  return std::nullopt;
}

int read_count(const ReadContext& context, const Element& entity, const Properties& properties) {
  const auto count = quantity_of(properties, "Count");
  if (!count) return 1;
  if (count->value < 1.0 || count->value > kMaxCount || count->value != std::floor(count->value)) {
    context.report.error(entity, "quantity Count is not a whole number from 1", "give the number of pieces");
    return 1;
  }
  return static_cast<int>(count->value);
}

/// The longest of the three edges of the prism in its own frame, so that a sloping brace keeps its true length.
double longest_edge(const Extrusion& solid) {
  Vec2 low = solid.outline.front();
  Vec2 high = low;
  for (const Vec2& p : solid.outline) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
  return std::max({high.x - low.x, high.y - low.y, solid.depth_m});
}

/// What the holes take of the shape. Their boxes may reach beyond it, and into what was cut out of it already.
double void_volume(const Shape& shape, const std::vector<Box3>& voids) {
  double volume = 0.0;
  for (const Box3& hole : voids) volume += shape.volume_within_m3(hole);
  return volume;
}

}  // namespace

std::string predefined_or_object_type(const ReadContext& context, const Element& entity) {
  std::string own = context.graph.text(entity, "PredefinedType");
  if (is_stated(own)) return own;
  std::string object_type = context.graph.text(entity, "ObjectType");
  // IFC2x3 states the predefined type on the type object only.
  for (const Element& type : context.graph.linked(Link::type, entity)) {
    std::string of_type = context.graph.text(type, "PredefinedType");
    if (is_stated(of_type)) return of_type;
    if (object_type.empty()) object_type = context.graph.text(type, "ElementType");
  }
  return object_type;
}

std::string type_name(const ReadContext& context, const Element& entity) {
  for (const Element& type : context.graph.linked(Link::type, entity)) {
    std::string name = context.graph.text(type, "Name");
    if (!name.empty()) return name;
  }
  return context.graph.text(entity, "ObjectType");
}

std::optional<PlacedPart> read_part(PanelReaders& readers, const Element& entity) {
  const ReadContext& context = readers.context;
  PlacedPart placed;
  placed.entity = entity;
  Part& part = placed.part;
  part.global_id = own_global_id(entity);
  part.name = context.graph.text(entity, "Name");
  part.object_type = predefined_or_object_type(context, entity);
  part.kind = part_kind(ifc_type(entity), enumeration_token(part.object_type));
  part.material = readers.materials.single_material(entity);
  part.properties = readers.properties.of_object(entity);
  part.count = read_count(context, entity, part.properties);
  if (part.material) {
    const auto classifications = classifications_of(context, entity);
    const auto article = part.properties.text("Pset_ManufacturerTypeInformation", "ArticleNumber");
    readers.materials.note_part(*part.material,
                                classifications.empty() ? std::string() : classifications.front().shown(),
                                article ? article->value : std::string());
  }
  part.origin = context.report.origin(entity);
  const auto frame = readers.placements.of_object(entity);
  if (!frame) return std::nullopt;
  placed.shape = readers.shapes.of_product(entity).moved(*frame, Frame{});
  return placed;
}

void compare_with_net_volume(const ReadContext& context, const Element& entity, const Properties& properties,
                             double volume_m3) {
  const auto stated = quantity_of(properties, "NetVolume");
  if (!stated || std::abs(stated->value - volume_m3) <= kVolumeTolerance_m3 + kVolumeShare * volume_m3) return;
  context.report.warning(entity,
                         "'" + std::string(stated->origin.property) + "' is " + shortest_text(stated->value) +
                             " m³ and its shape holds " + shortest_text(to_nanometre(volume_m3)) +
                             " m³; the shape is used",
                         "export quantities and shapes of one state");
}

void set_geometry(PanelReaders& readers, PlacedPart& placed, const std::vector<Box3>& voids) {
  Part& part = placed.part;
  const Shape& shape = placed.shape;
  const Origin of_shape = readers.context.report.origin(placed.entity, "Representation");
  if (const auto bounds = shape.bounds()) part.bounds = to_nanometre(*bounds);
  if (shape.solids.size() == 1 && shape.bodies.empty()) part.solid = shape.solids.front();
  if (shape.is_solid()) {
    const double net = shape.volume_m3() - void_volume(shape, voids);
    part.volume_m3 = Sourced<double>{to_nanometre(std::max(net, 0.0)), of_shape};
    // Quantities of fasteners are those of all pieces, and one shape may stand for them.
    if (part.kind != PartKind::fastener) {
      compare_with_net_volume(readers.context, placed.entity, part.properties, part.volume_m3->value);
    }
  } else {
    part.volume_m3 = quantity_of(part.properties, "NetVolume");
    if (!part.volume_m3) part.volume_m3 = quantity_of(part.properties, "GrossVolume");
  }
  if (part.solid) {
    part.length_m = Sourced<double>{to_nanometre(longest_edge(*part.solid)), of_shape};
    return;
  }
  part.length_m = quantity_of(part.properties, "Length");
  if (!part.length_m && part.bounds) {
    const Vec3 size = part.bounds->size();
    part.length_m = Sourced<double>{std::max({size.x, size.y, size.z}), of_shape};
  }
}

}  // namespace panel_dossier
