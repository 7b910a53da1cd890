#include "core/intake/panels/neighbour_reader.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "core/intake/graph/vocabulary.h"
#include "core/intake/panels/part_reader.h"

namespace panel_dossier {

namespace {

using namespace std::string_view_literals;

constexpr std::array kNeighbourKinds{
    std::pair{"IfcWall"sv, NeighbourKind::wall},
    std::pair{"IfcWallStandardCase"sv, NeighbourKind::wall},
    std::pair{"IfcWallElementedCase"sv, NeighbourKind::wall},
    std::pair{"IfcCurtainWall"sv, NeighbourKind::curtain_wall},
    std::pair{"IfcSlab"sv, NeighbourKind::slab},
    std::pair{"IfcSlabStandardCase"sv, NeighbourKind::slab},
    std::pair{"IfcSlabElementedCase"sv, NeighbourKind::slab},
    std::pair{"IfcRoof"sv, NeighbourKind::roof},
    std::pair{"IfcFooting"sv, NeighbourKind::footing},
    std::pair{"IfcPile"sv, NeighbourKind::footing},
    std::pair{"IfcColumn"sv, NeighbourKind::column},
    std::pair{"IfcColumnStandardCase"sv, NeighbourKind::column},
    std::pair{"IfcBeam"sv, NeighbourKind::beam},
    std::pair{"IfcBeamStandardCase"sv, NeighbourKind::beam},
    std::pair{"IfcStair"sv, NeighbourKind::stair},
    std::pair{"IfcStairFlight"sv, NeighbourKind::stair},
    std::pair{"IfcRamp"sv, NeighbourKind::stair},
    std::pair{"IfcRampFlight"sv, NeighbourKind::stair},
    std::pair{"IfcSite"sv, NeighbourKind::ground},
    std::pair{"IfcEarthworksFill"sv, NeighbourKind::ground},
    std::pair{"IfcBuildingElementProxy"sv, NeighbourKind::other},
};

/// Shape of the things a stair or a roof is put together from counts for each of them, not again for the whole.
bool is_made_of_neighbours(const ReadContext& context, const Element& element) {
  const auto parts = context.graph.linked(Link::parts, element);
  return std::any_of(parts.begin(), parts.end(), [&](const Element& part) {
    return neighbour_kind(ifc_type(part), enumeration_token(context.graph.text(part, "PredefinedType"))).has_value();
  });
}

bool is_level(const Extrusion& solid) {
  constexpr double kLevelCosine = 0.999999;
  return std::abs(solid.frame.z_axis.z) > kLevelCosine && std::abs(solid.direction.z) > kLevelCosine;
}

/// The height of a plate that lies flat.
std::optional<double> flat_height_m(const Shape& shape) {
  if (shape.solids.size() + shape.bodies.size() != 1) return std::nullopt;
  const Box3 bounds = *shape.bounds();
  if (!shape.solids.empty()) {
    const Extrusion& solid = shape.solids.front();
    // A box may be extruded along any of its edges.
    const Vec3 size = bounds.size();
    constexpr double kFillsItsBox = 0.999;
    const bool is_box = solid.volume_m3() > kFillsItsBox * size.x * size.y * size.z;
    return is_level(solid) || is_box ? std::optional(size.z) : std::nullopt;
  }
  const auto upright = prism_along(shape.bodies.front(), Vec3{0.0, 0.0, 1.0});
  return upright ? std::optional(upright->outer.depth_m) : std::nullopt;
}

}  // namespace

std::optional<NeighbourKind> neighbour_kind(std::string_view entity, std::string_view token) {
  if (entity == "IfcGeographicElement") {
    return token == "TERRAIN" ? std::optional(NeighbourKind::ground) : std::nullopt;
  }
  const auto found = std::find_if(kNeighbourKinds.begin(), kNeighbourKinds.end(),
                                  [entity](const auto& entry) { return entry.first == entity; });
  if (found == kNeighbourKinds.end()) return std::nullopt;
  return found->second == NeighbourKind::slab && token == "ROOF" ? NeighbourKind::roof : found->second;
}

std::vector<Element> NeighbourReader::candidates(const std::unordered_set<const void*>& of_panels) const {
  std::vector<Element> found;
  const auto take = [&](std::string_view type) {
    for (const Element& element : context_.graph.all(type)) {
      if (!of_panels.contains(element.key())) found.push_back(element);
    }
  };
  for (const auto& [type, kind] : kNeighbourKinds) take(type);
  take("IfcGeographicElement");
  std::stable_sort(found.begin(), found.end(),
                   [](const Element& a, const Element& b) { return a.offset() < b.offset(); });
  return found;
}

Shape NeighbourReader::shape_in_world(const Element& element) {
  const auto frame = placements_.of_object(element);
  if (!frame) return {};
  return shapes_.of_product(element).moved(*frame, Frame{});
}

std::optional<Sourced<double>> NeighbourReader::layers_total_m(const Element& element) {
  const Element set = materials_.layer_set_entity(element);
  if (!set) return std::nullopt;
  double total = 0.0;
  for (const Element& layer : context_.graph.entities(set, "MaterialLayers")) {
    const auto thickness = number(quiet_context_, layer, "LayerThickness");
    if (!context_.budget.take(1) || !thickness || *thickness < 0.0) return std::nullopt;
    total += *thickness * length_factor_;
  }
  if (!(total > 0.0)) return std::nullopt;
  return Sourced<double>{to_nanometre(total), context_.report.origin(set)};
}

std::optional<Neighbour> NeighbourReader::read_one(const Element& element) {
  const std::string token = enumeration_token(predefined_or_object_type(context_, element));
  const auto kind = neighbour_kind(ifc_type(element), token);
  if (!kind || is_made_of_neighbours(context_, element)) return std::nullopt;
  Neighbour neighbour;
  neighbour.kind = *kind;
  neighbour.entity = ifc_type(element);
  neighbour.global_id = own_global_id(element);
  neighbour.name = context_.graph.text(element, "Name");
  neighbour.storey = spatial_.place_of(element).storey;
  neighbour.origin = context_.report.origin(element);
  neighbour.material = materials_.material_names(element);
  Shape shape = shape_in_world(element);
  // A site without terrain is no ground.
  if (*kind == NeighbourKind::ground && shape.is_empty()) return std::nullopt;
  for (const Element& part : context_.graph.linked(Link::parts, element)) {
    if (!shape.is_empty() || !context_.budget.take(1)) break;
    shape = shape_in_world(part);
  }
  if (const auto bounds = shape.bounds()) neighbour.bounds = to_nanometre(*bounds);
  neighbour.thickness_m = layers_total_m(element);
  const bool lies_flat = *kind == NeighbourKind::slab || *kind == NeighbourKind::roof;
  if (const auto height = lies_flat && !neighbour.thickness_m ? flat_height_m(shape) : std::nullopt) {
    neighbour.thickness_m = Sourced<double>{to_nanometre(*height), context_.report.origin(element, "Representation")};
  }
  return neighbour;
}

std::vector<Neighbour> NeighbourReader::read(const std::unordered_set<const void*>& of_panels) {
  std::vector<Neighbour> neighbours;
  for (const Element& element : candidates(of_panels)) {
    if (!context_.budget.take(1)) break;
    if (auto neighbour = read_one(element)) neighbours.push_back(std::move(*neighbour));
  }
  return neighbours;
}

void NeighbourReader::report() {
  // A refused export is mended by its errors, which may well be about the same placements.
  if (context_.report.has_errors()) return;
  for (Diagnostic& fault : quiet_.take()) {
    fault.severity = Severity::warning;
    fault.message += "; it belongs to no panel, and its shape is not used";
    context_.report.add(std::move(fault));
  }
  for (const auto& [kind, count] : shapes_.unread()) {
    context_.report.file_warning(std::to_string(count) + " shapes of type '" + kind +
                                     "' of what stands beside the panels are not read; nothing is compared with them",
                                 "export extrusions, closed faceted bodies or clipped extrusions");
  }
}

}  // namespace panel_dossier
