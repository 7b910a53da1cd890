#include "plugins/thermal/conduction/solve.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <stdexcept>
#include <utility>

#include "plugins/thermal/conduction/multigrid.h"

namespace panel_dossier::thermal::conduction {

namespace {

using SharedNetwork = std::shared_ptr<const Network>;

/// The fields for 1 K in one environment and 0 K in all others, for all environments but the last: every other
/// solution is a sum of these (EN ISO 10211:2017, superposition for more than two environments).
struct UnitFields {
  std::vector<Field> fields;
  int iterations = 0;
};

Vector unit_air(std::size_t environments, std::size_t warm) {
  Vector air(environments, 0.0);
  air[warm] = 1.0;
  return air;
}

Vector right_hand_side(const Network& network, const Vector& air_c) {
  Vector b(network.matrix.size(), 0.0);
  for (const Exposure& exposure : network.exposures) {
    const std::size_t environment = network.model.environment_boxes[exposure.environment_box].environment;
    b[exposure.unknown] += exposure.conductance_w_per_k * air_c[environment];
  }
  return b;
}

/// The field of a grid at the middles of the cells of its halved grid.
Vector on_halved_grid(const Field& coarse, const Network& fine) {
  const bool halved_z = !fine.model.two_dimensional;
  Vector temperatures;
  temperatures.reserve(fine.cell_of_unknown.size());
  for (const CellPosition& cell : fine.cell_of_unknown) {
    const CellPosition parent{cell[0] / 2, cell[1] / 2, halved_z ? cell[2] / 2 : cell[2]};
    const Vec3 middle{fine.grid.centre_m(0, cell[0]), fine.grid.centre_m(1, cell[1]), fine.grid.centre_m(2, cell[2])};
    temperatures.push_back(coarse.temperature_in_cell_c(parent, middle));
  }
  return temperatures;
}

/// `coarse`, when given, is the solution on the grid that `network`'s was halved from: where the search starts.
UnitFields solve_unit_fields(const SharedNetwork& network, double relative_residual, const UnitFields* coarse) {
  UnitFields result;
  Multigrid multigrid(network->matrix);
  const std::size_t environments = network->model.environments.size();
  for (std::size_t warm = 0; warm + 1 < environments; ++warm) {
    Vector air = unit_air(environments, warm);
    Vector x = coarse ? on_halved_grid(coarse->fields[warm], *network) : Vector(network->matrix.size(), 0.0);
    result.iterations +=
        solve(network->matrix, multigrid, right_hand_side(*network, air), relative_residual, x).iterations;
    result.fields.emplace_back(network, std::move(x), std::move(air));
  }
  return result;
}

std::vector<std::vector<double>> coupling(const UnitFields& unit, std::size_t environments) {
  std::vector<std::vector<double>> result(environments, std::vector<double>(environments, 0.0));
  for (std::size_t warm = 0; warm < unit.fields.size(); ++warm) {
    const Vector flows = unit.fields[warm].heat_flows_w();
    for (std::size_t other = warm + 1; other < environments; ++other) {
      result[warm][other] = result[other][warm] = -flows[other];
    }
  }
  return result;
}

Field superposed(const SharedNetwork& network, const UnitFields& unit) {
  Vector air;
  for (const Environment& environment : network->model.environments) air.push_back(environment.temperature_c);
  Vector temperatures(network->matrix.size(), air.back());
  for (std::size_t warm = 0; warm < unit.fields.size(); ++warm) {
    add_scaled(air[warm] - air.back(), unit.fields[warm].cell_temperatures_c(), temperatures);
  }
  return {network, std::move(temperatures), std::move(air)};
}

Solution assemble(const SharedNetwork& network, const UnitFields& unit) {
  SolutionFigures figures;
  figures.coupling_w_per_k = coupling(unit, network->model.environments.size());
  Solution solution{std::move(figures), superposed(network, unit)};
  solution.air_temperatures_c = solution.field.air_temperatures_c();
  solution.heat_flows_w = solution.field.heat_flows_w();
  solution.surfaces = solution.field.surfaces();
  double sum = 0.0;
  double magnitudes = 0.0;
  for (const double flow : solution.heat_flows_w) {
    sum += flow;
    magnitudes += std::abs(flow);
  }
  const double heat_flow = magnitudes / 2.0;
  const double imbalance = heat_flow > 0.0 ? std::abs(sum) / heat_flow : 0.0;
  if (imbalance >= kHeatFlowImbalance) throw std::runtime_error("the heat flows of the solution do not balance");
  solution.grids.push_back({network->matrix.size(), unit.iterations, heat_flow, imbalance});
  return solution;
}

double temperature_span_k(const Model& model) {
  const auto [low, high] =
      std::minmax_element(model.environments.begin(), model.environments.end(),
                          [](const Environment& a, const Environment& b) { return a.temperature_c < b.temperature_c; });
  return high->temperature_c - low->temperature_c;
}

void check_heat_can_flow(const Model& model) {
  check(model);
  if (temperature_span_k(model) <= 0.0) {
    throw std::invalid_argument("all environments have the same temperature, so no heat flows");
  }
}

double surface_change(const Solution& coarse, const Solution& fine, double span_k) {
  double change = 0.0;
  for (std::size_t i = 0; i < fine.surfaces.size(); ++i) {
    if (!fine.surfaces[i] || !coarse.surfaces[i]) continue;
    change = std::max({change, std::abs(fine.surfaces[i]->lowest_c - coarse.surfaces[i]->lowest_c) / span_k,
                       std::abs(fine.surfaces[i]->highest_c - coarse.surfaces[i]->highest_c) / span_k});
  }
  return change;
}

/// Notes in `fine` how it differs from `coarse`, and takes over its history.
void compare(const Solution& coarse, Solution& fine, double span_k, double most_factor_change) {
  const double before = coarse.grids.back().heat_flow_w;
  const double after = fine.grids.back().heat_flow_w;
  fine.heat_flow_change = after > 0.0 ? std::abs(after - before) / after : 0.0;
  fine.temperature_factor_change = surface_change(coarse, fine, span_k);
  fine.accurate = fine.heat_flow_change <= kHeatFlowChange && fine.temperature_factor_change <= most_factor_change;
  fine.grids.insert(fine.grids.begin(), coarse.grids.begin(), coarse.grids.end());
}

}  // namespace

Solution solve(const Model& model, const SolveOptions& options) {
  check_heat_can_flow(model);
  const double span_k = temperature_span_k(model);
  const std::size_t children = model.two_dimensional ? 4 : 8;
  auto network = std::make_shared<const Network>(model, make_grid(model, options.grid));
  UnitFields unit = solve_unit_fields(network, options.relative_residual, nullptr);
  Solution solution = assemble(network, unit);
  while (!solution.accurate && network->matrix.size() * children <= options.most_cells) {
    network = std::make_shared<const Network>(model, halved(network->grid, model.two_dimensional));
    unit = solve_unit_fields(network, options.relative_residual, &unit);
    Solution finer = assemble(network, unit);
    compare(solution, finer, span_k, options.temperature_factor_change);
    solution = std::move(finer);
  }
  return solution;
}

Solution solve_on(const Model& model, const Grid& grid, double relative_residual) {
  check_heat_can_flow(model);
  const auto network = std::make_shared<const Network>(model, grid);
  return assemble(network, solve_unit_fields(network, relative_residual, nullptr));
}

std::optional<double> temperature_factor(const SolutionFigures& solution, std::size_t inside, std::size_t outside) {
  const Vector& air = solution.air_temperatures_c;
  if (!solution.surfaces[inside]) return std::nullopt;
  return (solution.surfaces[inside]->lowest_c - air[outside]) / (air[inside] - air[outside]);
}

}  // namespace panel_dossier::thermal::conduction
