#include "plugins/thermal/conduction/network.h"

#include <stdexcept>
#include <utility>

namespace panel_dossier::thermal::conduction {

namespace {

CellMap::Position position(const CellPosition& cell) {
  return {static_cast<std::ptrdiff_t>(cell[0]), static_cast<std::ptrdiff_t>(cell[1]),
          static_cast<std::ptrdiff_t>(cell[2])};
}

double face_area_m2(const Grid& grid, const CellPosition& cell, std::size_t axis) {
  const std::size_t a = (axis + 1) % 3;
  const std::size_t b = (axis + 2) % 3;
  return grid.size_m(a, cell[a]) * grid.size_m(b, cell[b]);
}

/// 0 and 1 as on a chessboard: a cell and its neighbours differ.
std::size_t colour_of(const CellPosition& cell) {
  return (cell[0] + cell[1] + cell[2]) % 2;
}

/// Numbers the solid cells of a colour, x running fastest.
void number_unknowns(Network& network, std::size_t colour) {
  const Grid& grid = network.grid;
  CellPosition cell{};
  for (cell[2] = 0; cell[2] < grid.count(2); ++cell[2]) {
    for (cell[1] = 0; cell[1] < grid.count(1); ++cell[1]) {
      for (cell[0] = 0; cell[0] < grid.count(0); ++cell[0]) {
        if (colour_of(cell) != colour || network.cells.solid(position(cell)) < 0) continue;
        network.unknown_of_cell[grid.cell_index(cell)] = static_cast<int>(network.cell_of_unknown.size());
        network.cell_of_unknown.push_back(cell);
      }
    }
  }
}

/// Writes one row of the matrix and the exposures of its cell.
class RowBuilder {
 public:
  explicit RowBuilder(Network& network) : network_(network) {}

  void add(std::size_t unknown) {
    const CellPosition cell = network_.cell_of_unknown[unknown];
    diagonal_ = 0.0;
    for (const std::size_t axis : {0, 1, 2}) {
      face(unknown, cell, axis, false);
      face(unknown, cell, axis, true);
    }
    // The neighbours of a cell of the first colour all stand right of the diagonal, those of the second left of it.
    const int end = static_cast<int>(network_.matrix.value.size());
    network_.matrix.middle.push_back(colour_of(cell) == 0 ? network_.matrix.start.back() : end);
    network_.matrix.start.push_back(end);
    network_.matrix.diagonal.push_back(diagonal_);
  }

 private:
  Network& network_;
  double diagonal_ = 0.0;

  void face(std::size_t unknown, const CellPosition& cell, std::size_t axis, bool upper) {
    const CellMap::Position beyond = neighbour(cell, axis, upper);
    if (network_.cells.solid(beyond) >= 0) {
      to_cell(cell, axis, upper);
    } else if (const int room = network_.cells.environment_box(beyond); room >= 0) {
      to_air(unknown, cell, axis, upper, static_cast<std::size_t>(room));
    }
  }

  void to_cell(const CellPosition& cell, std::size_t axis, bool upper) {
    CellPosition other = cell;
    other[axis] = upper ? cell[axis] + 1 : cell[axis] - 1;
    const double own = network_.half_conductance_w_per_m2k(cell, axis);
    const double others = network_.half_conductance_w_per_m2k(other, axis);
    const double conductance = face_area_m2(network_.grid, cell, axis) / (1.0 / own + 1.0 / others);
    diagonal_ += conductance;
    network_.matrix.column.push_back(network_.unknown_of_cell[network_.grid.cell_index(other)]);
    network_.matrix.value.push_back(-conductance);
  }

  void to_air(std::size_t unknown, const CellPosition& cell, std::size_t axis, bool upper, std::size_t room) {
    const double resistance = 1.0 / network_.half_conductance_w_per_m2k(cell, axis) +
                              network_.model.environment_boxes[room].surface_resistance_m2k_per_w;
    const double area = face_area_m2(network_.grid, cell, axis);
    diagonal_ += area / resistance;
    network_.exposures.push_back({unknown, cell, axis, upper, room, area, area / resistance});
  }
};

/// Follows the conductances from every exposed cell.
void check_all_reached(const Network& network) {
  std::vector<bool> reached(network.matrix.size(), false);
  std::vector<std::size_t> open;
  const auto reach = [&](std::size_t unknown) {
    if (reached[unknown]) return;
    reached[unknown] = true;
    open.push_back(unknown);
  };
  for (const Exposure& exposure : network.exposures) reach(exposure.unknown);
  while (!open.empty()) {
    const std::size_t i = open.back();
    open.pop_back();
    for (int k = network.matrix.start[i]; k < network.matrix.start[i + 1]; ++k) {
      reach(static_cast<std::size_t>(network.matrix.column[static_cast<std::size_t>(k)]));
    }
  }
  for (std::size_t i = 0; i < reached.size(); ++i) {
    if (reached[i]) continue;
    throw std::invalid_argument("a part of solid '" + network.solid_at(network.cell_of_unknown[i]).name +
                                "' has no contact with any environment");
  }
}

}  // namespace

CellMap::Position neighbour(const CellPosition& cell, std::size_t axis, bool upper) {
  CellMap::Position result = position(cell);
  result[axis] += upper ? 1 : -1;
  return result;
}

Network::Network(Model model_in, Grid grid_in)
    : model(std::move(model_in)), grid(std::move(grid_in)), cells(model, grid) {
  // Neighbours are numbered apart, so that a smoothing sweep need not wait for the unknown it has just changed.
  unknown_of_cell.assign(grid.cell_count(), -1);
  for (const std::size_t colour : {0, 1}) number_unknowns(*this, colour);
  if (cell_of_unknown.empty()) throw std::invalid_argument("the environments leave no solid in the model");
  RowBuilder row(*this);
  for (std::size_t unknown = 0; unknown < cell_of_unknown.size(); ++unknown) row.add(unknown);
  check_all_reached(*this);
}

const SolidBox& Network::solid_at(const CellPosition& cell) const {
  return model.solids[static_cast<std::size_t>(cells.solid(position(cell)))];
}

double Network::half_conductance_w_per_m2k(const CellPosition& cell, std::size_t axis) const {
  return 2.0 * solid_at(cell).conductivity_w_per_mk / grid.size_m(axis, cell[axis]);
}

}  // namespace panel_dossier::thermal::conduction
