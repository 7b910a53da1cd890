#include "plugins/structural/fixings/withdrawal.h"

#include <algorithm>
#include <cmath>

#include "core/api/support/units.h"

namespace panel_dossier::structural {

std::optional<Withdrawal> withdrawal(const ScrewGroup& screws) {
  constexpr double kLeastDiameter_mm = 6.0;
  constexpr double kGreatestDiameter_mm = 12.0;
  constexpr double kLeastPenetration = 6.0;  // diameters
  const double d = units::millimetres_from_metres(screws.diameter_m);
  const double l = units::millimetres_from_metres(screws.penetration_m);
  const bool in_range = d >= kLeastDiameter_mm && d <= kGreatestDiameter_mm && l >= kLeastPenetration * d;
  if (!in_range || !(screws.count >= 1.0) || !(screws.density_kg_per_m3 > 0.0)) return std::nullopt;
  Withdrawal result;
  const double strength = 0.52 * std::pow(d, -0.5) * std::pow(l, -0.1) * std::pow(screws.density_kg_per_m3, 0.8);
  result.strength_pa = strength * units::kPascalPerNewtonPerMm2;
  result.diameter_factor = std::min(d / 8.0, 1.0);
  result.effective_count = std::pow(screws.count, 0.9);
  result.resistance_n = result.effective_count * strength * d * l * result.diameter_factor;
  return result;
}

double pull_through_n(double effective_count, double head_strength_pa, double head_diameter_m) {
  return effective_count * head_strength_pa * head_diameter_m * head_diameter_m;
}

}  // namespace panel_dossier::structural
