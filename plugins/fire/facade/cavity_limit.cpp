#include "plugins/fire/facade/cavity_limit.h"

#include "plugins/fire/facade/layer_classes.h"

namespace panel_dossier::fire {

namespace {

std::optional<ReactionClass> class_at(const Panel& panel, std::size_t layer, const Project& project) {
  const Material* material = material_at(project, panel.layers[layer].material);
  return material != nullptr ? class_of(*material, panel.layers[layer].name, false).parsed : std::nullopt;
}

}  // namespace

std::optional<Sourced<double>> cavity_limit_m(const Panel& panel, std::size_t cavity, const Project& project,
                                              const Settings& settings, const Tables& tables) {
  const auto jurisdiction = settings.text("project.jurisdiction");
  if (!jurisdiction || cavity + 1 >= panel.layers.size()) return std::nullopt;
  const std::string better = jurisdiction->value + "/better";
  const auto least = tables.cavity_limits.text(better, "least_class");
  const auto inner = class_at(panel, cavity - 1, project);
  const auto outer = class_at(panel, cavity + 1, project);
  const auto asked = least ? parse_reaction_class(least->value) : std::nullopt;
  if (!asked || !inner || !outer) return std::nullopt;
  const bool meets = inner->meets(*asked) && outer->meets(*asked);
  return tables.cavity_limits.number(meets ? better : jurisdiction->value + "/worse", "largest_m");
}

}  // namespace panel_dossier::fire
