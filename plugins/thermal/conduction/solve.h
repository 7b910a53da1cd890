// Solves a model on ever finer grids until the standard's rules of accuracy hold.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "plugins/thermal/conduction/field.h"
#include "plugins/thermal/conduction/grid.h"
#include "plugins/thermal/conduction/model.h"

namespace panel_dossier::thermal::conduction {

/// Largest relative change of the sum of heat flows when the cells are halved (EN ISO 10211:2017, from memory: the
/// calculation with twice the subdivisions differs by 1 % at most).
inline constexpr double kHeatFlowChange = 0.01;
/// Largest change of a surface's temperature factor when the cells are halved (EN ISO 10211:2017, from memory).
inline constexpr double kTemperatureFactorChange = 0.005;
/// Largest sum of all heat flows over half the sum of their magnitudes (EN ISO 10211:2017, from memory).
inline constexpr double kHeatFlowImbalance = 1e-4;

struct SolveOptions {
  GridOptions grid;
  double relative_residual = 1e-8;   ///< at which the linear solver stops
  std::size_t most_cells = 2000000;  ///< no grid beyond this is tried
  /// Largest change of a surface's temperature factor when the cells are halved; at most kTemperatureFactorChange.
  double temperature_factor_change = kTemperatureFactorChange;
};

/// What one grid gave.
struct GridResult {
  std::size_t cells = 0;     ///< solid cells
  int iterations = 0;        ///< of the linear solver, over all its solutions
  double heat_flow_w = 0.0;  ///< half the sum of the magnitudes of all environments' heat flows
  double imbalance = 0.0;    ///< |sum of heat flows| / heat_flow_w
};

/// What the solution on the finest grid that was used says in figures.
struct SolutionFigures {
  Vector air_temperatures_c;  ///< one an environment
  /// Thermal coupling coefficients in W/K (W/(m·K) in two dimensions: L_2D), one row and column an environment,
  /// symmetric with zeros on the diagonal: the heat flow from i to j is L_ij (θ_i − θ_j).
  std::vector<std::vector<double>> coupling_w_per_k;
  Vector heat_flows_w;                           ///< from each environment into the solids
  std::vector<std::optional<Surface>> surfaces;  ///< one an environment
  std::vector<GridResult> grids;                 ///< coarsest first; each has halved the cells of the one before
  double heat_flow_change = 0.0;                 ///< relative, over the last halving
  double temperature_factor_change = 0.0;        ///< of the lowest and highest surface temperatures, likewise
  bool accurate = false;                         ///< both changes keep the standard's limits
};

/// The same with the temperature of every cell: some 200 bytes a cell.
struct Solution : SolutionFigures {
  Field field;
};

/// Halves the cells until both changes are within the limits above, or the next grid would exceed
/// `most_cells`; the result then says that it is not accurate. Throws std::invalid_argument when the model is unsound
/// (see `check`), a part of it touches no environment or all environments have one temperature, and std::runtime_error
/// when the equations are not solved to the tolerance or the heat flows do not balance.
Solution solve(const Model& model, const SolveOptions& options = {});

/// One grid, without refinement; `heat_flow_change` and `temperature_factor_change` stay 0 and `accurate` false.
Solution solve_on(const Model& model, const Grid& grid, double relative_residual);

/// (θ_si − θ_e)/(θ_i − θ_e): f_Rsi of the lowest surface temperature of environment `inside` against the air of
/// `outside` (EN ISO 10211:2017, 3.1). None when `inside` touches no solid.
std::optional<double> temperature_factor(const SolutionFigures& solution, std::size_t inside, std::size_t outside);

}  // namespace panel_dossier::thermal::conduction
