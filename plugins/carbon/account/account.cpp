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

PanelAccount::PanelAccount(const Panel& of_panel, const RunInputs& of_inputs)
    : panel(of_panel),
      inputs(of_inputs),
      amounts(measure_amounts(panel, inputs.project)),
      materials(amounts.materials.size()) {}

std::optional<double> PanelAccount::read_mass(std::size_t row, std::string name, std::string symbol,
                                              FindingBuilder& builder) const {
  const auto mass = amounts.materials[row].mass_kg;
  if (!mass) {
    builder.missing("material '" + material(row).name + "' has no positive Pset_MaterialCommon.MassDensity");
    return std::nullopt;
  }
  return builder.number(std::move(name), std::move(symbol), "kg", Sourced<double>{*mass, panel.origin}, {});
}

OpenFinding PanelAccount::open(const CheckDeclaration& check) const {
  OpenFinding finding(check, panel.global_id);
  for (const std::string& missing : amounts.missing) finding.builder().missing(missing);
  if (!amounts.fillings.empty()) {
    finding.builder().note(
        "Windows and doors are an element of their own and are not counted, though fitted in the "
        "workshop: " +
        std::to_string(amounts.fillings.size()) + " in this panel.");
  }
  return finding;
}

}  // namespace panel_dossier::carbon
