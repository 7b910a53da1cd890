#include "plugins/thermal/moisture/saturation.h"

#include <cmath>

namespace panel_dossier::thermal {

namespace {

struct MagnusConstants {
  double factor;
  double offset_c;
};

constexpr double kPressureAtZero_pa = 610.5;
constexpr MagnusConstants kOverWater{17.269, 237.3};
constexpr MagnusConstants kOverIce{21.875, 265.5};

}  // namespace

double saturation_pressure_pa(double temperature_c) {
  const auto& [factor, offset_c] = temperature_c >= 0.0 ? kOverWater : kOverIce;
  return kPressureAtZero_pa * std::exp(factor * temperature_c / (offset_c + temperature_c));
}

double saturation_temperature_c(double pressure_pa) {
  const auto& [factor, offset_c] = pressure_pa >= kPressureAtZero_pa ? kOverWater : kOverIce;
  const double logarithm = std::log(pressure_pa / kPressureAtZero_pa);
  return offset_c * logarithm / (factor - logarithm);
}

}  // namespace panel_dossier::thermal
