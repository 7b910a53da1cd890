#include "plugins/thermal/junctions/conduction_detail_result.h"

#include <stdexcept>
#include <utility>

namespace panel_dossier::thermal::conduction {

Model for_surface_mould(Model model) {
  for (EnvironmentBox& room : model.environment_boxes) {
    if (room.environment == kInside) room.surface_resistance_m2k_per_w = kSurfaceMouldResistance_m2k_per_w;
  }
  return model;
}

DetailResult DetailSolver::solve(const Detail& detail) {
  DetailResult result;
  SolveOptions surface_options;
  // Twice as strict as the standard: limits are often kept by a few thousandths.
  surface_options.temperature_factor_change = kDetailFactorChange;
  result.heat_flow = solve_once(detail.model);
  result.surface = solve_once(for_surface_mould(detail.model), surface_options);
  result.l_2d_w_per_mk = result.heat_flow->coupling_w_per_k[kInside][kOutside];
  result.psi_internal_w_per_mk = result.l_2d_w_per_mk;
  result.psi_external_w_per_mk = result.l_2d_w_per_mk;
  result.psi_own_w_per_mk = result.l_2d_w_per_mk;
  for (const Flank& flank : detail.flanks) {
    result.psi_internal_w_per_mk -= flank.u_value_w_per_m2k * flank.internal_length_m;
    result.psi_external_w_per_mk -= flank.u_value_w_per_m2k * flank.external_length_m;
    result.psi_own_w_per_mk -= flank.u_value_w_per_m2k * flank.own_length_m;
  }
  const auto factor = temperature_factor(*result.surface, kInside, kOutside);
  if (!factor) throw std::runtime_error("the detail has no internal surface");
  // The coldest point lies in a corner, which the middles of cells approach from the warm side.
  result.temperature_factor = *factor - result.surface->temperature_factor_change;
  result.coldest_at = result.surface->surfaces[kInside]->lowest_at;
  return result;
}

std::shared_ptr<const Solution> DetailSolver::solve_once(const Model& model, const SolveOptions& options) {
  Entry& known = entry(model);
  std::call_once(known.once, [&] {
    Solution solution = conduction::solve(model, options);
    if (!solution.accurate) {
      throw std::runtime_error("the grid of the detail would need more cells than are allowed");
    }
    known.solution = std::make_shared<const Solution>(std::move(solution));
  });
  return known.solution;
}

std::size_t DetailSolver::models_solved() const {
  const std::lock_guard lock(mutex_);
  return entries_.size();
}

DetailSolver::Entry& DetailSolver::entry(const Model& model) {
  std::string key = identity(model);
  const std::lock_guard lock(mutex_);
  auto& found = entries_[std::move(key)];
  if (!found) found = std::make_unique<Entry>();
  return *found;
}

}  // namespace panel_dossier::thermal::conduction
