#include "plugins/fire/facade/layer_classes.h"

#include <utility>

#include "plugins/fire/calculation/build_up.h"

namespace panel_dossier::fire {

LayerClass class_of(const Material& material, std::string name, bool membrane) {
  LayerClass result;
  result.name = std::move(name);
  result.material = material.name;
  result.membrane = membrane;
  result.stated = material.properties.text("Panel_Fire", "ReactionToFire");
  if (result.stated) result.parsed = parse_reaction_class(result.stated->value);
  return result;
}

std::vector<LayerClass> layer_classes(const Panel& panel, const Project& project) {
  std::vector<LayerClass> result;
  for (const Layer& layer : panel.layers) {
    const Material* material = material_at(project, layer.material);
    if (material == nullptr) continue;
    const bool membrane = layer.category == "membrane" || layer.thickness_m.value < kThinnestBoard_m;
    result.push_back(class_of(*material, layer.name, membrane));
    result.back().insulation = layer.category == "insulation" || material->category == "insulation";
  }
  return result;
}

std::string missing_class(const LayerClass& layer) {
  if (!layer.stated) return "material '" + layer.material + "': Panel_Fire.ReactionToFire";
  return "'" + layer.stated->value + "' of material '" + layer.material + "' is not a class of EN 13501-1";
}

Table class_table(const std::vector<LayerClass>& layers) {
  Table table{"Reaction to fire from inside to outside", {{"layer", ""}, {"material", ""}, {"class", ""}}, {}};
  for (const LayerClass& layer : layers) {
    table.rows.push_back({layer.name, layer.material, layer.parsed ? layer.parsed->text() : std::string("not given")});
  }
  return table;
}

std::optional<ReactionClass> surface(FindingBuilder& builder, const char* where, const LayerClass& layer) {
  if (!layer.parsed) {
    builder.missing(missing_class(layer));
    return std::nullopt;
  }
  builder.text(std::string(where) + ": '" + layer.name + "'", layer.stated, {});
  return layer.parsed;
}

}  // namespace panel_dossier::fire
