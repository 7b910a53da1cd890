#include "plugins/thermal/moisture/saturation.h"

#include <cmath>

#include "core/api/support/words.h"

namespace panel_dossier::thermal {

namespace {

struct MagnusConstants {
  double factor;
  double offset_c;
};

constexpr double kPressureAtZero_pa = 610.5;
constexpr MagnusConstants kOverWater{17.269, 237.3};
constexpr MagnusConstants kOverIce{21.875, 265.5};

const MagnusConstants& constants_at(double pressure_pa) {
  return pressure_pa >= kPressureAtZero_pa ? kOverWater : kOverIce;
}

}  // namespace

double saturation_pressure_pa(double temperature_c) {
  const auto& [factor, offset_c] = temperature_c >= 0.0 ? kOverWater : kOverIce;
  return kPressureAtZero_pa * std::exp(factor * temperature_c / (offset_c + temperature_c));
}

double saturation_temperature_c(double pressure_pa) {
  const auto& [factor, offset_c] = constants_at(pressure_pa);
  const double logarithm = std::log(pressure_pa / kPressureAtZero_pa);
  return offset_c * logarithm / (factor - logarithm);
}

std::string saturation_temperature_formula(double pressure_pa, const std::string& pressure) {
  const auto& [factor, offset_c] = constants_at(pressure_pa);
  const std::string logarithm = "ln(" + pressure + " / " + fixed_text(kPressureAtZero_pa, 1) + ")";
  return fixed_text(offset_c, 1) + " · " + logarithm + " / (" + fixed_text(factor, 3) + " − " + logarithm + ")";
}

}  // namespace panel_dossier::thermal
