#include "plugins/thermal/conduction/field.h"

#include <algorithm>
#include <array>
#include <utility>

namespace panel_dossier::thermal::conduction {

namespace {

std::array<double, 3> coordinates(const Vec3& v) {
  return {v.x, v.y, v.z};
}

/// Indices of the cells along `axis` that hold the coordinate: two on a line between cells, none outside.
std::vector<std::size_t> cells_at(const Grid& grid, std::size_t axis, double coordinate) {
  const std::vector<double>& lines = grid.lines_m[axis];
  const auto next = std::lower_bound(lines.begin(), lines.end(), coordinate - kSamePlane_m);
  if (next == lines.end() || coordinate < lines.front() - kSamePlane_m) return {};
  const auto at = static_cast<std::size_t>(next - lines.begin());
  std::vector<std::size_t> cells;
  if (at > 0) cells.push_back(at - 1);
  const bool on_line = *next <= coordinate + kSamePlane_m;
  if (on_line && at < grid.count(axis)) cells.push_back(at);
  return cells;
}

Vec3 face_middle(const Grid& grid, const Exposure& exposure) {
  std::array<double, 3> at{};
  for (std::size_t axis = 0; axis < 3; ++axis) at[axis] = grid.centre_m(axis, exposure.cell[axis]);
  at[exposure.axis] = grid.lines_m[exposure.axis][exposure.cell[exposure.axis] + (exposure.upper ? 1 : 0)];
  return {at[0], at[1], at[2]};
}

}  // namespace

Field::Field(std::shared_ptr<const Network> network, Vector cell_temperatures_c, Vector air_temperatures_c)
    : network_(std::move(network)),
      cell_temperatures_c_(std::move(cell_temperatures_c)),
      air_temperatures_c_(std::move(air_temperatures_c)) {}

double Field::face_temperature_c(const CellPosition& cell, std::size_t axis, bool upper) const {
  const double middle = middle_c(cell);
  const double own = network_->half_conductance_w_per_m2k(cell, axis);
  const CellMap::Position beyond = neighbour(cell, axis, upper);
  if (network_->cells.solid(beyond) >= 0) {
    CellPosition other = cell;
    other[axis] = static_cast<std::size_t>(beyond[axis]);
    const double others = network_->half_conductance_w_per_m2k(other, axis);
    return (own * middle + others * middle_c(other)) / (own + others);
  }
  const int room = network_->cells.environment_box(beyond);
  if (room < 0) return middle;
  const EnvironmentBox& box = network_->model.environment_boxes[static_cast<std::size_t>(room)];
  const double air = air_temperatures_c_[box.environment];
  const double resistance = box.surface_resistance_m2k_per_w;
  return (own * resistance * middle + air) / (own * resistance + 1.0);
}

double Field::temperature_in_cell_c(const CellPosition& cell, const Vec3& point) const {
  const double middle = middle_c(cell);
  const std::array<double, 3> at = coordinates(point);
  double temperature = middle;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const double offset = at[axis] - network_->grid.centre_m(axis, cell[axis]);
    const double face = face_temperature_c(cell, axis, offset > 0.0);
    temperature += (face - middle) * 2.0 * (offset > 0.0 ? offset : -offset) / network_->grid.size_m(axis, cell[axis]);
  }
  return temperature;
}

std::optional<double> Field::temperature_c(const Vec3& point) const {
  const Grid& grid = network_->grid;
  double sum = 0.0;
  int count = 0;
  for (const std::size_t z : cells_at(grid, 2, point.z)) {
    for (const std::size_t y : cells_at(grid, 1, point.y)) {
      for (const std::size_t x : cells_at(grid, 0, point.x)) {
        if (network_->unknown_of_cell[grid.cell_index({x, y, z})] < 0) continue;
        sum += temperature_in_cell_c({x, y, z}, point);
        ++count;
      }
    }
  }
  if (count == 0) return std::nullopt;
  return sum / count;
}

Vector Field::heat_flows_w() const {
  Vector flows(air_temperatures_c_.size(), 0.0);
  for (const Exposure& exposure : network_->exposures) {
    const std::size_t environment = network_->model.environment_boxes[exposure.environment_box].environment;
    flows[environment] +=
        exposure.conductance_w_per_k * (air_temperatures_c_[environment] - cell_temperatures_c_[exposure.unknown]);
  }
  return flows;
}

std::vector<std::optional<Surface>> Field::surfaces() const {
  std::vector<std::optional<Surface>> surfaces(air_temperatures_c_.size());
  for (const Exposure& exposure : network_->exposures) {
    if (!network_->solid_at(exposure.cell).surface_counts) continue;
    auto& surface = surfaces[network_->model.environment_boxes[exposure.environment_box].environment];
    const double temperature = face_temperature_c(exposure.cell, exposure.axis, exposure.upper);
    const Vec3 at = face_middle(network_->grid, exposure);
    if (!surface) surface = Surface{temperature, at, temperature, at, 0.0};
    surface->area_m2 += exposure.area_m2;
    if (temperature < surface->lowest_c) {
      surface->lowest_c = temperature;
      surface->lowest_at = at;
    }
    if (temperature > surface->highest_c) {
      surface->highest_c = temperature;
      surface->highest_at = at;
    }
  }
  return surfaces;
}

}  // namespace panel_dossier::thermal::conduction
