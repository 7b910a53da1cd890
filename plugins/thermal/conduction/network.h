// A model on a grid as a network of thermal conductances.
#pragma once

#include <cstddef>
#include <vector>

#include "plugins/thermal/conduction/grid.h"
#include "plugins/thermal/conduction/matrix.h"
#include "plugins/thermal/conduction/model.h"

namespace panel_dossier::thermal::conduction {

/// A face of a cell that an environment touches.
struct Exposure {
  std::size_t unknown = 0;
  CellPosition cell{};
  std::size_t axis = 0;
  bool upper = false;               ///< the face at the upper end of the cell along `axis`
  std::size_t environment_box = 0;  ///< index into Model::environment_boxes
  double area_m2 = 0.0;
  double conductance_w_per_k = 0.0;  ///< from the middle of the cell to the air
};

/// One unknown a solid cell: the temperature at its middle. Conductances lie in series from middle to middle, and from
/// the middle through the surface resistance to the air, so the heat that leaves one cell enters the next exactly.
struct Network {
  Model model;
  Grid grid;
  CellMap cells;
  std::vector<int> unknown_of_cell;  ///< by Grid::cell_index; −1 for cells that are no solid
  std::vector<CellPosition> cell_of_unknown;
  Matrix matrix;  ///< W/K
  std::vector<Exposure> exposures;

  /// `model` has passed `check` and `grid` was made for it. Throws std::invalid_argument when a part of the solids
  /// touches no environment, so that its temperature is undetermined.
  Network(Model model_in, Grid grid_in);

  /// `cell` is one of `cell_of_unknown`.
  const SolidBox& solid_at(const CellPosition& cell) const;
  /// λ/(d/2) in W/(m²·K): from the middle of a solid cell to its face across `axis`.
  double half_conductance_w_per_m2k(const CellPosition& cell, std::size_t axis) const;
};

/// The position next to `cell` along `axis`; −1 or `count` outside the grid.
CellMap::Position neighbour(const CellPosition& cell, std::size_t axis, bool upper);

}  // namespace panel_dossier::thermal::conduction
