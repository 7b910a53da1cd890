#include "plugins/fire/tables.h"

#include <cstddef>

namespace panel_dossier::fire {

Tables::Tables(const std::filesystem::path& data_dir)
    : charring_rates(data_dir / "charring_rates.csv"),
      boards(data_dir / "boards.csv"),
      cavity_insulation(data_dir / "cavity_insulation.csv"),
      unexposed_position(data_dir / "unexposed_position.csv"),
      stud_section(data_dir / "stud_section.csv"),
      timber_in_fire(data_dir / "timber_in_fire.csv"),
      load_factors(data_dir / "load_factors.csv"),
      uses(data_dir / "uses.csv"),
      external_walls(data_dir / "external_walls.csv"),
      periods(data_dir / "periods.csv"),
      wall_resistance(data_dir / "wall_resistance.csv"),
      cavity_limits(data_dir / "cavity_limits.csv") {}

std::optional<double> interpolated(const Points& points, double at) {
  if (points.empty() || at < points.front().first) return std::nullopt;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const auto& [x0, y0] = points[i - 1];
    const auto& [x1, y1] = points[i];
    if (at <= x1) return y0 + (y1 - y0) * (at - x0) / (x1 - x0);
  }
  return points.back().second;
}

}  // namespace panel_dossier::fire
