#include "plugins/carbon/account/account.h"

#include <cmath>
#include <map>
#include <stdexcept>

#include "core/api/support/exact_sum.h"
#include "core/api/support/take_off.h"

namespace panel_dossier::carbon {

namespace {

double exact_sum_of(double a, double b) {
  return ExactSum().add(a).add(b).total();
}

}  // namespace

const ModuleName& name_of(Module module) {
  static constexpr std::array<ModuleName, kModules.size()> kNames{{{"A1–A3", "A1-A3", "A1A3"},
                                                                   {"A4", "A4", "A4"},
                                                                   {"A5", "A5", "A5"},
                                                                   {"B1", "B1", "B1"},
                                                                   {"B2", "B2", "B2"},
                                                                   {"B3", "B3", "B3"},
                                                                   {"B4", "B4", "B4"},
                                                                   {"B5", "B5", "B5"},
                                                                   {"C1", "C1", "C1"},
                                                                   {"C2", "C2", "C2"},
                                                                   {"C3", "C3", "C3"},
                                                                   {"C4", "C4", "C4"},
                                                                   {"D", "D", "D"}}};
  return kNames.at(static_cast<std::size_t>(module));
}

Module module_printed(std::string_view name) {
  const auto* const found =
      std::find_if(kModules.begin(), kModules.end(), [&](Module module) { return name_of(module).printed == name; });
  if (found == kModules.end()) throw std::invalid_argument("'" + std::string(name) + "' is no module");
  return *found;
}

double Gwp::total() const {
  return ExactSum().add(fossil).add(biogenic).add(luluc).total();
}

double Gwp::fossil_and_luluc() const {
  return exact_sum_of(fossil, luluc);
}

Gwp& Gwp::operator+=(const Gwp& other) {
  fossil = exact_sum_of(fossil, other.fossil);
  biogenic = exact_sum_of(biogenic, other.biogenic);
  luluc = exact_sum_of(luluc, other.luluc);
  return *this;
}

Gwp scaled(const Gwp& gwp, double factor) {
  return {rounded_to_millionth(gwp.fossil * factor), rounded_to_millionth(gwp.biogenic * factor),
          rounded_to_millionth(gwp.luluc * factor)};
}

namespace {

constexpr double kLitrePerCubicMetre = 1000.0;

/// Sums of one material; a sum is whole only while every item has the value.
struct RunningAmount {
  ExactSum mass_kg;
  ExactSum volume_l;  ///< in litres, so that a sum in whole millionths keeps the cubic millimetre of a thin layer
  double pieces = 0.0;
  bool mass_known = true;
  bool volume_known = true;
  bool pieces_known = true;

  void add(const TakeOffItem& item, const Panel& panel) {
    mass_known = mass_known && item.mass_kg && std::isfinite(*item.mass_kg);
    if (mass_known) mass_kg.add(*item.mass_kg);
    volume_known = volume_known && std::isfinite(item.volume_m3) && item.volume_m3 > 0.0;
    if (volume_known) volume_l.add(item.volume_m3 * kLitrePerCubicMetre);
    pieces_known = pieces_known && item.part;
    if (pieces_known) pieces += panel.parts[*item.part].count;
  }

  MaterialAmount total(std::size_t material) const {
    MaterialAmount amount;
    amount.material = material;
    if (mass_known) amount.mass_kg = mass_kg.total();
    if (volume_known) amount.volume_m3 = volume_l.total() / kLitrePerCubicMetre;
    if (pieces_known) amount.pieces = pieces;
    return amount;
  }
};

}  // namespace

PanelAmounts measure_amounts(const Panel& panel, const Project& project) {
  PanelAmounts result;
  std::map<std::size_t, RunningAmount> running;
  for (const TakeOffItem& item : take_off(panel, project).items) {
    if (item.opening) {
      result.fillings.push_back(item.name);
    } else if (!item.material) {
      result.missing.push_back("'" + item.name + "' has no material");
    } else {
      running[*item.material].add(item, panel);
    }
  }
  for (const std::size_t layer : layers_without_parts(panel)) {
    result.missing.push_back(missing_part_of(panel.layers[layer]));
  }
  for (const auto& [material, amount] : running) result.materials.push_back(amount.total(material));
  if (result.materials.empty()) result.missing.emplace_back("the panel has neither parts nor material layers");
  return result;
}

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
