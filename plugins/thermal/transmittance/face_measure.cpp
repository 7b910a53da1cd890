#include "plugins/thermal/transmittance/face_measure.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace panel_dossier::thermal {

namespace {

constexpr int kNobody = -1;
constexpr int kOpening = -2;

/// Exports carry noise below this; without snapping it would give slivers that are sections of their own.
double snapped(double value_m) {
  constexpr double kStepsPerMetre = 1e5;
  return std::round(value_m * kStepsPerMetre) / kStepsPerMetre;
}

std::vector<double> grid_lines(double end, std::vector<double> lines) {
  lines.push_back(0.0);
  lines.push_back(end);
  for (double& line : lines) line = snapped(std::clamp(line, 0.0, end));
  std::sort(lines.begin(), lines.end());
  lines.erase(std::unique(lines.begin(), lines.end()), lines.end());
  return lines;
}

/// A grid through every edge of every rectangle, so that a cell is either wholly covered or not at all.
class FaceGrid {
 public:
  FaceGrid(double width_m, double height_m, const std::vector<Rectangle>& openings, const std::vector<Cover>& covers)
      : width_m_(width_m), height_m_(height_m) {
    std::vector<double> x;
    std::vector<double> z;
    const auto add = [&](const Rectangle& face) {
      x.insert(x.end(), {face.x_min, face.x_max});
      z.insert(z.end(), {face.z_min, face.z_max});
    };
    for (const Rectangle& opening : openings) add(opening);
    for (const Cover& cover : covers) add(cover.face);
    x_ = grid_lines(width_m, std::move(x));
    z_ = grid_lines(height_m, std::move(z));
  }

  std::size_t cell_count() const { return columns() * (z_.size() - 1); }
  double cell_area_m2(std::size_t cell) const {
    const std::size_t column = cell % columns();
    const std::size_t row = cell / columns();
    return (x_[column + 1] - x_[column]) * (z_[row + 1] - z_[row]);
  }

  /// Gives the free cells under `face` to `owner`.
  void paint(std::vector<int>& cells, const Rectangle& face, int owner) const {
    const std::size_t first_column = index(x_, face.x_min, width_m_);
    const std::size_t last_column = index(x_, face.x_max, width_m_);
    const std::size_t last_row = index(z_, face.z_max, height_m_);
    for (std::size_t row = index(z_, face.z_min, height_m_); row < last_row; ++row) {
      for (std::size_t column = first_column; column < last_column; ++column) {
        int& cell = cells[row * columns() + column];
        if (cell == kNobody) cell = owner;
      }
    }
  }

 private:
  double width_m_;
  double height_m_;
  std::vector<double> x_;
  std::vector<double> z_;

  std::size_t columns() const { return x_.size() - 1; }

  static std::size_t index(const std::vector<double>& lines, double value, double end) {
    const auto found = std::lower_bound(lines.begin(), lines.end(), snapped(std::clamp(value, 0.0, end)));
    return static_cast<std::size_t>(found - lines.begin());
  }
};

std::vector<std::vector<int>> owners_by_layer(const FaceGrid& grid, const std::vector<Rectangle>& openings,
                                              const std::vector<Cover>& covers, std::size_t layer_count) {
  std::vector<int> free(grid.cell_count(), kNobody);
  for (const Rectangle& opening : openings) grid.paint(free, opening, kOpening);
  std::vector<std::vector<int>> owners(layer_count, free);
  for (std::size_t i = 0; i < covers.size(); ++i) {
    grid.paint(owners[covers[i].layer], covers[i].face, static_cast<int>(i));
  }
  return owners;
}

}  // namespace

FaceMeasure measure_face(double width_m, double height_m, const std::vector<Rectangle>& openings,
                         const std::vector<Cover>& covers, std::size_t layer_count) {
  FaceMeasure result;
  result.cover_areas_m2.assign(covers.size(), 0.0);
  const FaceGrid grid(width_m, height_m, openings, covers);
  const auto owners = owners_by_layer(grid, openings, covers, layer_count);
  std::map<std::vector<std::size_t>, double> areas;
  // Neighbouring cells mostly have the same materials, so the last entry is tried before the map.
  auto last = areas.end();
  std::vector<std::size_t> slots(layer_count, 0);
  for (std::size_t cell = 0; cell < grid.cell_count(); ++cell) {
    if (layer_count == 0 || owners.front()[cell] == kOpening) continue;
    const double area = grid.cell_area_m2(cell);
    for (std::size_t layer = 0; layer < layer_count; ++layer) {
      const int owner = owners[layer][cell];
      slots[layer] = owner == kNobody ? 0 : covers[static_cast<std::size_t>(owner)].slot;
      if (owner != kNobody) result.cover_areas_m2[static_cast<std::size_t>(owner)] += area;
    }
    if (last == areas.end() || last->first != slots) last = areas.try_emplace(slots, 0.0).first;
    last->second += area;
    result.net_area_m2 += area;
  }
  for (auto& [key, area] : areas) result.sections.push_back({key, area});
  std::stable_sort(result.sections.begin(), result.sections.end(),
                   [](const SectionArea& a, const SectionArea& b) { return a.area_m2 > b.area_m2; });
  return result;
}

}  // namespace panel_dossier::thermal
