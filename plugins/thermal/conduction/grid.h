// The graded rectilinear grid of a model: its lines hit every edge of every box.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "plugins/thermal/conduction/model.h"

namespace panel_dossier::thermal::conduction {

/// How finely space is divided before any refinement. Cells grow from the edges of boxes into their middle.
struct GridOptions {
  double edge_cell_m = 0.005;     ///< size of the cells at the edges of boxes, at most
  double growth = 1.5;            ///< ratio of neighbouring cells, 1 or more
  double largest_cell_m = 0.100;  ///< at least `edge_cell_m`
};

/// Cell of the grid by its position along x, y and z.
using CellPosition = std::array<std::size_t, 3>;

/// The lines along x, y and z, ascending, over the bounding box of the solids.
struct Grid {
  std::array<std::vector<double>, 3> lines_m;

  std::size_t count(std::size_t axis) const { return lines_m[axis].size() - 1; }
  std::size_t cell_count() const { return count(0) * count(1) * count(2); }
  std::size_t cell_index(const CellPosition& at) const { return (at[2] * count(1) + at[1]) * count(0) + at[0]; }
  double size_m(std::size_t axis, std::size_t i) const { return lines_m[axis][i + 1] - lines_m[axis][i]; }
  double centre_m(std::size_t axis, std::size_t i) const { return (lines_m[axis][i + 1] + lines_m[axis][i]) / 2.0; }
};

/// A grid of at least two cells between neighbouring edges. `model` has passed `check`. A two-dimensional model gets
/// one cell along z.
Grid make_grid(const Model& model, const GridOptions& options);

/// Every cell halved along each axis (x and y alone in two dimensions).
Grid halved(const Grid& grid, bool two_dimensional);

/// What fills the cells of a grid and the space just outside of it.
class CellMap {
 public:
  CellMap(const Model& model, const Grid& grid);

  /// Position −1 and `count` along an axis are the space outside the grid.
  using Position = std::array<std::ptrdiff_t, 3>;
  /// Index into Model::solids, or −1.
  int solid(const Position& at) const { return solids_[index(at)]; }
  /// Index into Model::environment_boxes, or −1. Never set together with `solid`.
  int environment_box(const Position& at) const { return rooms_[index(at)]; }

 private:
  std::array<std::size_t, 3> counts_{};  ///< with one cell of the outside at either end
  std::vector<int> solids_;
  std::vector<int> rooms_;

  std::size_t index(const Position& at) const {
    return (static_cast<std::size_t>(at[2] + 1) * counts_[1] + static_cast<std::size_t>(at[1] + 1)) * counts_[0] +
           static_cast<std::size_t>(at[0] + 1);
  }
  void paint(std::vector<int>& cells, const Grid& grid, const Box3& box, int value) const;
};

}  // namespace panel_dossier::thermal::conduction
