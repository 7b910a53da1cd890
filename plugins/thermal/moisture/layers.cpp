#include "plugins/thermal/moisture/layers.h"

#include <algorithm>

namespace panel_dossier::thermal {

namespace {

constexpr double kAirLayer_sd_m = 0.01;

bool is_membrane(const Panel& panel, const ThermalLayer& layer) {
  return panel.layers[layer.panel_layer].category == "membrane";
}

/// The names of the two factors are used either way round in exports, so the larger and the smaller are told by value.
std::optional<Sourced<double>> less_favourable_factor(const Material& material, bool warm_side) {
  const auto first = material.vapour_resistance_factor();
  const auto second = material.properties.number("Pset_MaterialHygroscopic", "LowerVaporResistanceFactor");
  if (!first || !second) return first ? first : second;
  return (first->value < second->value) == warm_side ? first : second;
}

std::optional<double> vapour_resistance_factor(const LayerSlot& slot, bool warm_side, const Project& project,
                                               FindingBuilder& builder) {
  const std::string& name = slot.material;
  const Material* material = material_at(project, slot.material_index);
  if (material == nullptr) {
    builder.missing("'" + name + "' is not a material of the export, so its water vapour resistance is unknown");
    return std::nullopt;
  }
  const auto factor = builder.number(
      "water vapour resistance factor of '" + name + "', " + (warm_side ? "smaller" : "larger") + " value", "μ", "",
      less_favourable_factor(*material, warm_side),
      "material '" + name + "' has no Pset_MaterialHygroscopic.UpperVaporResistanceFactor");
  if (!factor || *factor >= 1.0) return factor;
  builder.missing("the water vapour resistance factor of '" + name + "' is below 1, that of air");
  return std::nullopt;
}

}  // namespace

std::size_t main_insulation_layer(const BridgedLayers& bridged) {
  const auto most = std::max_element(bridged.layers.begin(), bridged.layers.end(), [](const auto& a, const auto& b) {
    return a.slots.front().resistance_m2k_per_w < b.slots.front().resistance_m2k_per_w;
  });
  return static_cast<std::size_t>(most - bridged.layers.begin());
}

std::optional<VapourBuildUp> vapour_build_up(const BuildUp& build_up, const SectionArea& section,
                                             const Project& project, FindingBuilder& builder) {
  VapourBuildUp result;
  result.r_si_m2k_per_w = build_up.r_si_m2k_per_w;
  result.r_se_m2k_per_w = build_up.r_se_m2k_per_w;
  const auto& layers = build_up.bridged.layers;
  const std::size_t insulation = main_insulation_layer(build_up.bridged);
  for (std::size_t i = 0; i < layers.size(); ++i) {
    const LayerSlot& slot = layers[i].slots[section.slots[i]];
    double sd_m = kAirLayer_sd_m;
    if (slot.material != "air") {
      const auto factor = vapour_resistance_factor(slot, i <= insulation, project, builder);
      if (!factor) continue;
      sd_m = *factor * layers[i].thickness_m;
    }
    result.layers.push_back({layers[i].name, slot.resistance_m2k_per_w, sd_m, layers[i].thickness_m});
  }
  return result.layers.size() == layers.size() ? std::optional(std::move(result)) : std::nullopt;
}

std::optional<std::size_t> vapour_control_layer(const Panel& panel, const BridgedLayers& bridged,
                                                const VapourBuildUp& build_up) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < main_insulation_layer(bridged); ++i) {
    if (!is_membrane(panel, bridged.layers[i])) continue;
    if (!found || build_up.layers[i].sd_m > build_up.layers[*found].sd_m) found = i;
  }
  return found;
}

}  // namespace panel_dossier::thermal
