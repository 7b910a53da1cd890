#include "plugins/carbon/account/account.h"

#include <algorithm>
#include <utility>

namespace panel_dossier::carbon {

std::string label_of(const Project& project, std::size_t material) {
  const std::string& name = project.materials[material].name;
  const auto end = project.materials.begin() + static_cast<std::ptrdiff_t>(material);
  const auto before =
      std::count_if(project.materials.begin(), end, [&](const Material& earlier) { return earlier.name == name; });
  return before == 0 ? name : name + " (" + std::to_string(before + 1) + ")";
}

const Material* material_labelled(const Project& project, const std::string& label) {
  for (std::size_t index = 0; index < project.materials.size(); ++index) {
    if (label_of(project, index) == label) return &project.materials[index];
  }
  return nullptr;
}

std::optional<double> PanelAccount::read_mass(std::size_t row, std::string name, std::string symbol,
                                              FindingBuilder& builder) const {
  const auto mass = amounts.materials[row].mass_kg;
  if (!mass) {
    builder.missing("material '" + material(row).name + "' has no positive Pset_MaterialCommon.MassDensity");
    return std::nullopt;
  }
  return builder.number(std::move(name), std::move(symbol), "kg", Sourced<double>{*mass, panel.origin}, {});
}

}  // namespace panel_dossier::carbon
