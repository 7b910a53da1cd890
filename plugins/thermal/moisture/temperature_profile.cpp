#include "plugins/thermal/moisture/temperature_profile.h"

#include <numeric>

#include "core/api/support/units.h"

namespace panel_dossier::thermal {

namespace {

Curve temperature_curve(const BridgedLayers& bridged, std::size_t section, const std::vector<double>& temperatures_c) {
  Curve curve;
  curve.name = section_name(bridged, bridged.sections[section]);
  double depth_mm = 0.0;
  // The first and the last temperature are those of the air, which has no depth in the build-up.
  curve.points.push_back({depth_mm, temperatures_c[1]});
  for (std::size_t layer = 0; layer < bridged.layers.size(); ++layer) {
    depth_mm += units::millimetres_from_metres(bridged.layers[layer].thickness_m);
    curve.points.push_back({depth_mm, temperatures_c[layer + 2]});
  }
  return curve;
}

}  // namespace

std::vector<double> interface_temperatures_c(const std::vector<double>& resistances, double r_si, double r_se,
                                             double internal_c, double external_c) {
  const double total = std::accumulate(resistances.begin(), resistances.end(), r_si + r_se);
  const double heat_flux_w_per_m2 = (internal_c - external_c) / total;
  std::vector<double> temperatures{internal_c, internal_c - heat_flux_w_per_m2 * r_si};
  for (const double resistance : resistances)
    temperatures.push_back(temperatures.back() - heat_flux_w_per_m2 * resistance);
  temperatures.push_back(external_c);
  return temperatures;
}

Series temperature_series(const BridgedLayers& bridged, double r_si, double r_se, double internal_c,
                          double external_c) {
  Series series;
  series.title = "Temperature through the build-up, steady state, heat at right angles to the face";
  series.x_label = "depth from the inner face";
  series.x_unit = "mm";
  series.y_label = "temperature";
  series.y_unit = "°C";
  const auto paths = heat_paths(bridged);
  const auto add = [&](std::size_t section) {
    series.curves.push_back(temperature_curve(
        bridged, section, interface_temperatures_c(paths[section].resistances, r_si, r_se, internal_c, external_c)));
  };
  add(0);
  if (const std::size_t least = least_insulated(paths); least != 0) add(least);
  return series;
}

}  // namespace panel_dossier::thermal
