#include "plugins/thermal/conduction_detail_result.h"

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
  result.heat_flow = solve_once(detail.model);
  result.surface = solve_once(for_surface_mould(detail.model));
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
  result.temperature_factor = *factor;
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

std::vector<Step> detail_steps(const Detail& detail, const DetailResult& result) {
  std::vector<Step> steps;
  const Solution& flow = *result.heat_flow;
  const auto add = [&](std::string name, std::string symbol, double value, std::string unit, std::string formula = {}) {
    steps.push_back({std::move(name), std::move(symbol), value, std::move(unit), std::move(formula)});
  };
  add("cells of the last grid but one", "n", static_cast<double>(flow.grids[flow.grids.size() - 2].cells), "");
  add("cells of the last grid", "4 n", static_cast<double>(flow.grids.back().cells), "");
  add("change of the heat flow when the cells are halved", "", flow.heat_flow_change * 100.0, "%",
      "|Φ_4n − Φ_n| / Φ_4n ≤ 1 %");
  add("thermal coupling coefficient", "L_2D", result.l_2d_w_per_mk, "W/(m·K)", "L_2D = Φ / (θ_i − θ_e)");
  for (const Flank& flank : detail.flanks) {
    add("thermal transmittance of " + flank.name, "U", flank.u_value_w_per_m2k, "W/(m²·K)");
    add("internal length of " + flank.name, "l_i", flank.internal_length_m, "m");
    add("external length of " + flank.name, "l_e", flank.external_length_m, "m");
  }
  add("linear thermal transmittance, internal dimensions", "Ψ_i", result.psi_internal_w_per_mk, "W/(m·K)",
      "Ψ_i = L_2D − Σ U · l_i");
  add("linear thermal transmittance, external dimensions", "Ψ_e", result.psi_external_w_per_mk, "W/(m·K)",
      "Ψ_e = L_2D − Σ U · l_e");
  add("temperature factor at the coldest internal surface, R_si = 0.25 m²·K/W", "f_Rsi", result.temperature_factor, "",
      "f_Rsi = (θ_si,min − θ_e) / (θ_i − θ_e)");
  return steps;
}

}  // namespace panel_dossier::thermal::conduction
