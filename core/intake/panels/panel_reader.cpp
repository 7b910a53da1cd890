#include "core/intake/panels/panel_reader.h"

#include <algorithm>
#include <utility>

#include "core/intake/graph/vocabulary.h"
#include "core/intake/panels/classification_reader.h"
#include "core/intake/panels/placement.h"

namespace panel_dossier {

namespace {

std::optional<LayerSet> find_layer_set(MaterialReader& materials, const PanelEntities& entities) {
  if (auto own = materials.layer_set(entities.panel)) return own;
  for (const Element& subassembly : entities.subassemblies) {
    if (auto nested = materials.layer_set(subassembly)) return nested;
  }
  return std::nullopt;
}

std::optional<LayerOrder> stated_order(const ReadContext& context, const Element& panel, const Properties& properties) {
  const auto face = properties.text("Panel_Construction", "FirstLayerFace");
  if (!face) return std::nullopt;
  const std::string token = enumeration_token(face->value);
  if (token == "INSIDE") return LayerOrder::inside_to_outside;
  if (token == "OUTSIDE") return LayerOrder::outside_to_inside;
  context.report.error(panel, "Panel_Construction.FirstLayerFace is '" + face->value.substr(0, 60) + "'",
                       "write INSIDE or OUTSIDE");
  return std::nullopt;
}

/// From the panel or, where it has none, from a wall among its subassemblies. The order is
/// Panel_Construction.FirstLayerFace, else the default; IfcMaterialLayerSetUsage.DirectionSense says on which side the
/// last layer lies.
BuildUp read_build_up(const ReadContext& context, MaterialReader& materials, const PanelEntities& entities,
                      const Properties& properties, std::optional<LayerOrder> default_order) {
  BuildUp build_up;
  build_up.set = find_layer_set(materials, entities);
  const auto stated = stated_order(context, entities.panel, properties);
  if (!build_up.set || build_up.set->layers.empty()) return build_up;
  for (const Layer& layer : build_up.set->layers) build_up.total_m += layer.thickness_m.value;
  build_up.order = stated ? stated : default_order;
  const bool is_positive = !build_up.set->usage || build_up.set->usage->is_positive;
  build_up.outside_is_positive_y = is_positive == (build_up.order != LayerOrder::outside_to_inside);
  if (!build_up.order) {
    context.report.warning(entities.panel,
                           "neither the export nor the settings say which face is outside; its layers are not read",
                           "give Panel_Construction.FirstLayerFace or the setting intake.layer_order");
  } else if (!build_up.set->usage && !entities.parts.empty()) {
    context.report.warning(entities.panel,
                           "its layer set has no usage; the layers are taken to follow one another along y",
                           "assign the layers through an IfcMaterialLayerSetUsage");
  }
  return build_up;
}

/// Sets `layers` and `outside_known` of the panel, whose size is set: layers follow one another from the inner face.
/// Warns when they do not add up to the panel's thickness.
void set_layers(const ReadContext& context, const Element& entity, BuildUp build_up, Panel& panel) {
  panel.outside_known = build_up.order.has_value();
  if (!build_up.order) return;
  panel.layers = std::move(build_up.set->layers);
  if (*build_up.order == LayerOrder::outside_to_inside) std::reverse(panel.layers.begin(), panel.layers.end());
  double y_m = 0.0;
  for (Layer& layer : panel.layers) {
    layer.y_inside_m = y_m;
    y_m += layer.thickness_m.value;
    layer.y_outside_m = y_m;
  }
  if (differs(y_m, panel.thickness_m.value)) {
    context.report.warning(entity,
                           "its layers add up to " + metres(y_m) + " and its shape is " +
                               metres(panel.thickness_m.value) + " thick; both are kept as they are",
                           "let layers and parts fill the same thickness");
  }
}

Vec3 extent(const std::optional<OverallBox>& overall) {
  return overall ? overall->box.size() : Vec3{};
}

Origin origin_of_size(const ReadContext& context, const Element& entity, const Properties& properties,
                      OverallBox::Source source, const std::string& quantity) {
  if (source == OverallBox::Source::quantities) {
    if (const auto stated = properties.number("Qto_WallBaseQuantities", quantity)) return stated->origin;
  }
  return context.report.origin(entity, source == OverallBox::Source::parts ? "IsDecomposedBy" : "Representation");
}

void set_size(const ReadContext& context, const Element& entity, const OverallBox& overall, Panel& panel) {
  const Vec3 size = to_nanometre(overall.box.size());
  const auto sourced = [&](double value_m, const std::string& quantity) {
    return Sourced<double>{value_m, origin_of_size(context, entity, panel.properties, overall.source, quantity)};
  };
  panel.width_m = sourced(size.x, "Length");
  panel.thickness_m = sourced(size.y, "Width");
  panel.height_m = sourced(size.z, "Height");
}

Frame without_negative_zeros(const Frame& frame) {
  const Vec3 zero;
  return {to_nanometre(frame.origin), frame.x_axis + zero, frame.y_axis + zero, frame.z_axis + zero};
}

}  // namespace

Panel PanelReader::read_identity(const PanelEntities& entities) {
  const ReadContext& context = readers_.context;
  const Element& entity = entities.panel;
  Panel panel;
  panel.global_id = own_global_id(entity);
  panel.name = context.graph.text(entity, "Name");
  panel.properties = readers_.properties.of_object(entity);
  panel.mark = context.graph.text(entity, "Tag");
  if (panel.mark.empty()) {
    const auto mark = panel.properties.text("Panel_Identity", "Mark");
    panel.mark = mark ? mark->value : panel.name;
  }
  panel.type = type_name(context, entity);
  for (const ClassificationReference& reference : classifications_of(context, entity)) {
    panel.classifications.push_back(reference.shown());
  }
  panel.origin = context.report.origin(entity);
  const SpatialPlace place = spatial_.place_of(entity);
  panel.storey = place.storey;
  panel.building = place.building;
  return panel;
}

std::vector<PlacedPart> PanelReader::read_parts(const PanelEntities& entities) {
  std::vector<PlacedPart> parts;
  const auto fills_opening = [&](const Element& part) {
    const std::string_view type = ifc_type(part);
    return type == "IfcWindow" || type == "IfcDoor" || type == "IfcOpeningElement";
  };
  parts.reserve(entities.parts.size());
  for (const Element& entity : entities.parts) {
    if (fills_opening(entity)) continue;
    if (auto placed = read_part(readers_, entity)) parts.push_back(std::move(*placed));
  }
  return parts;
}

std::optional<OverallBox> PanelReader::place(const PanelEntities& entities, const Shape& body,
                                             const std::vector<PlacedPart>& parts, const BuildUp& build_up,
                                             Panel& panel) {
  const Element& entity = entities.panel;
  const auto placement = readers_.placements.of_object(entity);
  if (!placement) return std::nullopt;
  Frame frame = upright(*placement, extent(overall_box(body, parts, *placement)), build_up.lies_along_x());
  if (build_up.order && !build_up.outside_is_positive_y) frame = turned_about(frame);
  auto overall = overall_box(body, parts, frame);
  if (!overall) overall = stated_box(panel.properties, build_up.total_m);
  if (!overall) {
    readers_.context.report.error(
        entity, "the panel has neither a shape nor stated sizes",
        "export a body, parts with shapes, or Qto_WallBaseQuantities with Length, Height and Width");
    return std::nullopt;
  }
  frame.origin = frame.to_parent(overall->box.min);
  panel.frame = without_negative_zeros(frame);
  set_size(readers_.context, entity, *overall, panel);
  return overall;
}

void PanelReader::check(const PanelEntities& entities, const std::vector<PlacedPart>& parts,
                        const std::vector<PlacedOpening>& openings, const OverallBox& overall,
                        const Panel& panel) const {
  const ReadContext& context = readers_.context;
  if (!readers_.units.has_length() || !check_panel_size(context, entities.panel, panel)) return;
  check_parts_inside(context, panel, parts);
  check_openings(context, panel, openings);
  if (overall.source != OverallBox::Source::quantities) {
    compare_with_quantities(context, entities.panel, panel, parts, overall.source);
  }
}

std::optional<Panel> PanelReader::read(const PanelEntities& entities) {
  const ReadContext& context = readers_.context;
  const Element& entity = entities.panel;
  Panel panel = read_identity(entities);
  if (panel.mark.empty()) {
    context.report.error(entity, "the panel has no mark", "give its Tag, Panel_Identity.Mark or Name");
  }
  std::vector<PlacedPart> parts = read_parts(entities);
  BuildUp build_up = read_build_up(context, readers_.materials, entities, panel.properties, default_layer_order_);
  if (parts.empty() && !build_up.set) {
    context.report.warning(entity, "the wall has neither parts nor layers; only its size is read",
                           "export its parts or assign a material layer set");
  }
  const auto placement = readers_.placements.of_object(entity);
  const Shape body = placement ? readers_.shapes.of_product(entity).moved(*placement, Frame{}) : Shape{};
  const auto overall = place(entities, body, parts, build_up, panel);
  if (!overall) return std::nullopt;
  for (PlacedPart& placed : parts) {
    placed.shape = std::move(placed.shape).moved(Frame{}, panel.frame);
    set_geometry(readers_, placed, voids_of_part(readers_, placed.entity, panel.frame));
  }
  std::vector<PlacedOpening> openings = read_openings(readers_, entities, panel);
  const Shape own_body = body.moved(Frame{}, panel.frame);
  if (openings.empty()) openings = holes_of_body(context, entity, own_body);
  if (own_body.is_solid()) {
    double net_m3 = own_body.volume_m3();
    for (const PlacedOpening& placed : openings) net_m3 -= own_body.volume_within_m3(placed.bounds);
    compare_with_net_volume(context, entity, panel.properties, net_m3);
  }
  weigh_openings(context, openings, panel);
  check(entities, parts, openings, *overall, panel);
  set_layers(context, entity, std::move(build_up), panel);
  panel.parts.reserve(parts.size());
  for (PlacedPart& placed : parts) panel.parts.push_back(std::move(placed.part));
  for (const PlacedOpening& placed : openings) panel.openings.push_back(placed.opening);
  check_face(context, entity, own_body, panel);
  panel.evidence = evidence_of(entities, panel);
  return panel;
}

std::vector<std::size_t> PanelReader::evidence_of(const PanelEntities& entities, const Panel& panel) const {
  std::vector<std::size_t> found;
  const auto add = [&](const Element& entity) {
    evidence_.add_documents_of(entity, found);
    for (const Element& type : readers_.context.graph.linked(Link::type, entity)) {
      evidence_.add_documents_of(type, found);
    }
  };
  add(entities.panel);
  for (const Element& subassembly : entities.subassemblies) add(subassembly);
  for (const Element& part : entities.parts) add(part);
  const auto add_material = [&](std::optional<std::size_t> material) {
    if (material) evidence_.add_documents_of(materials_.entities()[*material], found);
  };
  for (const Layer& layer : panel.layers) add_material(layer.material);
  for (const Part& part : panel.parts) add_material(part.material);
  std::sort(found.begin(), found.end());
  found.erase(std::unique(found.begin(), found.end()), found.end());
  return found;
}

}  // namespace panel_dossier
