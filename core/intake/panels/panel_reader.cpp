#include "core/intake/panels/panel_reader.h"

#include <algorithm>
#include <utility>

#include "core/intake/document/rounding.h"
#include "core/intake/graph/entity_type.h"
#include "core/intake/panels/panel_frame.h"
#include "core/intake/panels/size_checks.h"

namespace panel_dossier {

namespace {

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
  for (const Element& entity : entities.parts) {
    if (fills_opening(entity)) continue;
    if (auto placed = read_part(readers_, entity)) parts.push_back(std::move(*placed));
  }
  return parts;
}

std::optional<OverallBox> PanelReader::place(const PanelEntities& entities, const std::vector<PlacedPart>& parts,
                                             const BuildUp& build_up, Panel& panel) {
  const Element& entity = entities.panel;
  const auto placement = readers_.placements.of_object(entity);
  if (!placement) return std::nullopt;
  const Shape body = readers_.shapes.of_product(entity).moved(*placement, Frame{});
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
  const auto overall = place(entities, parts, build_up, panel);
  if (!overall) return std::nullopt;
  for (PlacedPart& placed : parts) {
    placed.shape = placed.shape.moved(Frame{}, panel.frame);
    set_geometry(readers_, placed, voids_of_part(readers_, placed.entity, panel.frame));
  }
  const std::vector<PlacedOpening> openings = read_openings(readers_, entities, panel.frame);
  check(entities, parts, openings, *overall, panel);
  set_layers(context, entity, std::move(build_up), panel);
  for (PlacedPart& placed : parts) panel.parts.push_back(std::move(placed.part));
  for (const PlacedOpening& placed : openings) panel.openings.push_back(placed.opening);
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
