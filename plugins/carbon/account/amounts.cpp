#include "plugins/carbon/account/amounts.h"

#include <cmath>
#include <map>

#include "core/api/support/exact_sum.h"
#include "core/api/support/take_off.h"

namespace panel_dossier::carbon {

namespace {

/// Sums of one material; a sum is whole only while every item has the value.
struct RunningAmount {
  ExactSum mass_kg;
  ExactSum volume_m3;
  double pieces = 0.0;
  bool mass_known = true;
  bool volume_known = true;
  bool pieces_known = true;

  void add(const TakeOffItem& item, const Panel& panel) {
    mass_known = mass_known && item.mass_kg && std::isfinite(*item.mass_kg);
    if (mass_known) mass_kg.add(*item.mass_kg);
    volume_known = volume_known && std::isfinite(item.volume_m3) && item.volume_m3 > 0.0;
    if (volume_known) volume_m3.add(item.volume_m3);
    pieces_known = pieces_known && item.part;
    if (pieces_known) pieces += panel.parts[*item.part].count;
  }

  MaterialAmount total(std::size_t material) const {
    MaterialAmount amount;
    amount.material = material;
    if (mass_known) amount.mass_kg = mass_kg.total();
    if (volume_known) amount.volume_m3 = volume_m3.total();
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

}  // namespace panel_dossier::carbon
