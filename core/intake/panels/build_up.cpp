#include "core/intake/panels/build_up.h"

#include <algorithm>
#include <utility>

#include "core/intake/document/text_format.h"
#include "core/intake/graph/entity_type.h"
#include "core/intake/panels/size_checks.h"

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

}  // namespace

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

}  // namespace panel_dossier
