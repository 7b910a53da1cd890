#include "plugins/thermal/conduction/field.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
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

namespace {

/// A point where the line crosses an edge of a cell; edges are numbered over the whole grid.
struct Crossing {
  std::size_t edge = 0;
  Vec2 at;
};

/// The crossings that a line joins, by their edges.
struct Links {
  std::map<std::size_t, Vec2> points;
  std::map<std::size_t, std::vector<std::size_t>> neighbours;

  void join(const Crossing& a, const Crossing& b) {
    points.emplace(a.edge, a.at);
    points.emplace(b.edge, b.at);
    neighbours[a.edge].push_back(b.edge);
    neighbours[b.edge].push_back(a.edge);
  }

  /// Follows the line from `edge`, taking it apart.
  Polyline follow(std::size_t edge) {
    Polyline line{points.at(edge)};
    while (!neighbours[edge].empty()) {
      const std::size_t next = neighbours[edge].back();
      neighbours[edge].pop_back();
      auto& back = neighbours[next];
      back.erase(std::find(back.begin(), back.end(), edge));
      line.push_back(points.at(next));
      edge = next;
    }
    return line;
  }
};

double distance_to_segment(const Vec2& p, const Vec2& a, const Vec2& b) {
  const Vec2 along{b.x - a.x, b.y - a.y};
  const double squared = along.x * along.x + along.y * along.y;
  double t = 0.0;
  if (squared > 0.0) t = std::clamp(((p.x - a.x) * along.x + (p.y - a.y) * along.y) / squared, 0.0, 1.0);
  return std::hypot(p.x - a.x - t * along.x, p.y - a.y - t * along.y);
}

/// Douglas and Peucker's thinning between two points that stay.
void thin(const Polyline& line, std::size_t first, std::size_t last, double tolerance_m, Polyline& kept) {
  std::size_t farthest = first;
  double distance = tolerance_m;
  for (std::size_t i = first + 1; i < last; ++i) {
    const double d = distance_to_segment(line[i], line[first], line[last]);
    if (d > distance) {
      distance = d;
      farthest = i;
    }
  }
  if (farthest == first) {
    kept.push_back(line[last]);
    return;
  }
  thin(line, first, farthest, tolerance_m, kept);
  thin(line, farthest, last, tolerance_m, kept);
}

Polyline thinned(const Polyline& line, double tolerance_m) {
  Polyline kept{line.front()};
  thin(line, 0, line.size() - 1, tolerance_m, kept);
  return kept;
}

/// One cell with the temperatures at its corners: lower left, lower right, upper right, upper left.
class Square {
 public:
  Square(const Grid& grid, std::size_t x, std::size_t y, const std::vector<double>& corners_c) {
    const std::size_t columns = grid.count(0) + 1;
    const std::array<std::array<std::size_t, 2>, 4> at{{{x, y}, {x + 1, y}, {x + 1, y + 1}, {x, y + 1}}};
    for (std::size_t i = 0; i < 4; ++i) {
      points_[i] = {grid.lines_m[0][at[i][0]], grid.lines_m[1][at[i][1]]};
      temperatures_c_[i] = corners_c[at[i][1] * columns + at[i][0]];
    }
    // Two numbers a crossing of grid lines: the edge to its right and the edge above it.
    edges_ = {2 * (y * columns + x), 2 * (y * columns + x + 1) + 1, 2 * ((y + 1) * columns + x),
              2 * (y * columns + x) + 1};
  }

  void link(double level_c, double middle_c, Links& links) const {
    std::vector<Crossing> crossings;
    for (std::size_t i = 0; i < 4; ++i) {
      const std::size_t j = (i + 1) % 4;
      if (above(i, level_c) != above(j, level_c)) crossings.push_back({edges_[i], between(i, j, level_c)});
    }
    if (crossings.size() == 2) links.join(crossings[0], crossings[1]);
    if (crossings.size() != 4) return;
    // A saddle: the middle tells which two corners the line cuts off.
    const bool first_joins_middle = above(0, level_c) == (middle_c > level_c);
    links.join(crossings[0], crossings[first_joins_middle ? 1 : 3]);
    links.join(crossings[2], crossings[first_joins_middle ? 3 : 1]);
  }

 private:
  std::array<Vec2, 4> points_;
  std::array<double, 4> temperatures_c_{};
  std::array<std::size_t, 4> edges_{};

  bool above(std::size_t i, double level_c) const { return temperatures_c_[i] > level_c; }
  Vec2 between(std::size_t i, std::size_t j, double level_c) const {
    const double t = (level_c - temperatures_c_[i]) / (temperatures_c_[j] - temperatures_c_[i]);
    return {points_[i].x + t * (points_[j].x - points_[i].x), points_[i].y + t * (points_[j].y - points_[i].y)};
  }
};

}  // namespace

IsothermTracer::IsothermTracer(const Field& field) : field_(field) {
  const Grid& grid = field.network().grid;
  corners_c_.reserve(grid.lines_m[0].size() * grid.lines_m[1].size());
  for (const double y : grid.lines_m[1]) {
    for (const double x : grid.lines_m[0]) {
      corners_c_.push_back(field.temperature_c({x, y, 0.5}).value_or(std::numeric_limits<double>::quiet_NaN()));
    }
  }
}

std::vector<Polyline> IsothermTracer::trace(double temperature_c, double tolerance_m) const {
  const Network& network = field_.network();
  Links links;
  for (std::size_t unknown = 0; unknown < network.cell_of_unknown.size(); ++unknown) {
    const CellPosition& cell = network.cell_of_unknown[unknown];
    Square(network.grid, cell[0], cell[1], corners_c_)
        .link(temperature_c, field_.cell_temperatures_c()[unknown], links);
  }
  std::vector<Polyline> lines;
  // Lines with ends first, so that what is left afterwards is closed.
  for (const bool ends_only : {true, false}) {
    for (const auto& [edge, point] : links.points) {
      const std::size_t count = links.neighbours[edge].size();
      if (count == 1 || (count > 1 && !ends_only)) lines.push_back(thinned(links.follow(edge), tolerance_m));
    }
  }
  return lines;
}

}  // namespace panel_dossier::thermal::conduction
