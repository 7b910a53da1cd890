#include "plugins/thermal/transmittance/air_layer.h"

#include <algorithm>

#include "core/api/support/units.h"

namespace panel_dossier::thermal {

std::optional<Sourced<double>> air_layer_resistance(const DataTable& table, double thickness_m, HeatFlow direction) {
  const double thickness_mm = units::millimetres_from_metres(thickness_m);
  std::optional<Sourced<double>> below;
  double below_mm = 0.0;
  for (const std::string& key : table.keys()) {
    const auto row_mm = table.number(key, "thickness_mm");
    auto resistance = table.number(key, to_string(direction));
    if (!row_mm || !resistance || row_mm->value < 0.0) continue;
    if (row_mm->value == thickness_mm) return resistance;
    if (row_mm->value > thickness_mm) {
      if (!below) return std::nullopt;
      const double share = (thickness_mm - below_mm) / (row_mm->value - below_mm);
      below->value += share * (resistance->value - below->value);
      return below;
    }
    below = resistance;
    below_mm = row_mm->value;
  }
  return std::nullopt;
}

double ventilated_share(double openings_mm2_per_m) {
  constexpr double kUnventilated_mm2_per_m = 500.0;
  constexpr double kWellVentilated_mm2_per_m = 1500.0;
  return std::clamp(
      (openings_mm2_per_m - kUnventilated_mm2_per_m) / (kWellVentilated_mm2_per_m - kUnventilated_mm2_per_m), 0.0, 1.0);
}

}  // namespace panel_dossier::thermal
