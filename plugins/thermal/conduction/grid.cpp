#include "plugins/thermal/conduction/grid.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace panel_dossier::thermal::conduction {

namespace {

double along(const Vec3& v, std::size_t axis) {
  if (axis == 0) return v.x;
  return axis == 1 ? v.y : v.z;
}

Box3 bounds_of_solids(const Model& model) {
  Box3 bounds = model.solids.front().box;
  for (const SolidBox& solid : model.solids) bounds = united(bounds, solid.box);
  return bounds;
}

/// The planes that carry an edge of a box, within the bounds of the solids.
std::vector<double> edges_along(const Model& model, std::size_t axis) {
  const Box3 bounds = bounds_of_solids(model);
  const double first = along(bounds.min, axis);
  const double last = along(bounds.max, axis);
  std::vector<double> all;
  const auto add = [&](const Box3& box) {
    all.push_back(along(box.min, axis));
    all.push_back(along(box.max, axis));
  };
  for (const SolidBox& solid : model.solids) add(solid.box);
  for (const EnvironmentBox& room : model.environment_boxes) add(room.box);
  std::sort(all.begin(), all.end());
  std::vector<double> edges{first};
  for (const double value : all) {
    if (value - edges.back() > kSamePlane_m && last - value > kSamePlane_m) edges.push_back(value);
  }
  edges.push_back(last);
  return edges;
}

/// Sizes of cells from an edge to the middle of a gap, filling `half_m` exactly.
std::vector<double> graded_half(double half_m, const GridOptions& options) {
  std::vector<double> sizes;
  double sum = 0.0;
  double size = options.edge_cell_m;
  do {
    sizes.push_back(size);
    sum += size;
    size = std::min(size * options.growth, options.largest_cell_m);
  } while (sum < half_m * (1.0 - 1e-9));
  for (double& s : sizes) s *= half_m / sum;
  return sizes;
}

std::vector<double> graded_lines(const std::vector<double>& edges, const GridOptions& options) {
  std::vector<double> lines{edges.front()};
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
    const std::vector<double> half = graded_half((edges[i + 1] - edges[i]) / 2.0, options);
    double up = edges[i];
    for (const double size : half) lines.push_back(up += size);
    // The far half mirrors the near one, measured from its own edge so that the edge itself is hit exactly.
    std::vector<double> far{edges[i + 1]};
    double down = edges[i + 1];
    for (std::size_t k = 0; k + 1 < half.size(); ++k) far.push_back(down -= half[k]);
    lines.insert(lines.end(), far.rbegin(), far.rend());
  }
  return lines;
}

}  // namespace

Grid make_grid(const Model& model, const GridOptions& options) {
  Grid grid;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const std::vector<double> edges = edges_along(model, axis);
    const bool one_cell = axis == 2 && model.two_dimensional;
    grid.lines_m[axis] = one_cell ? edges : graded_lines(edges, options);
  }
  return grid;
}

Grid halved(const Grid& grid, bool two_dimensional) {
  Grid fine;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    std::vector<double>& lines = fine.lines_m[axis];
    for (std::size_t i = 0; i < grid.count(axis); ++i) {
      lines.push_back(grid.lines_m[axis][i]);
      if (axis != 2 || !two_dimensional) lines.push_back(grid.centre_m(axis, i));
    }
    lines.push_back(grid.lines_m[axis].back());
  }
  return fine;
}

CellMap::CellMap(const Model& model, const Grid& grid) {
  for (std::size_t axis = 0; axis < 3; ++axis) counts_[axis] = grid.count(axis) + 2;
  solids_.assign(counts_[0] * counts_[1] * counts_[2], -1);
  rooms_ = solids_;
  for (std::size_t i = 0; i < model.solids.size(); ++i) paint(solids_, grid, model.solids[i].box, static_cast<int>(i));
  for (std::size_t i = 0; i < model.environment_boxes.size(); ++i) {
    paint(rooms_, grid, model.environment_boxes[i].box, static_cast<int>(i));
    paint(solids_, grid, model.environment_boxes[i].box, -1);
  }
}

void CellMap::paint(std::vector<int>& cells, const Grid& grid, const Box3& box, int value) const {
  std::array<std::pair<std::size_t, std::size_t>, 3> range;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    // Cells counted from the one outside the grid: the first whose upper line lies above the box's lower face, up to
    // the first whose lower line reaches its upper face.
    const std::vector<double>& lines = grid.lines_m[axis];
    const double low = along(box.min, axis) + kSamePlane_m;
    const double high = along(box.max, axis) - kSamePlane_m;
    if (high + 2.0 * kSamePlane_m < lines.front() || low - 2.0 * kSamePlane_m > lines.back()) return;
    range[axis].first = static_cast<std::size_t>(std::lower_bound(lines.begin(), lines.end(), low) - lines.begin());
    range[axis].second =
        static_cast<std::size_t>(std::lower_bound(lines.begin(), lines.end(), high) - lines.begin()) + 1;
  }
  for (std::size_t z = range[2].first; z < range[2].second; ++z) {
    for (std::size_t y = range[1].first; y < range[1].second; ++y) {
      const std::size_t row = (z * counts_[1] + y) * counts_[0];
      for (std::size_t x = range[0].first; x < range[0].second; ++x) cells[row + x] = value;
    }
  }
}

}  // namespace panel_dossier::thermal::conduction
