#include "plugins/structural/studs/composite_section.h"

#include <cmath>
#include <numbers>

#include "core/api/support/units.h"

namespace panel_dossier::structural {

namespace {

double cooperation(const CompositeLayer& layer, double span_m) {
  if (layer.area_m2() == 0.0) return 0.0;
  const double slip_pa = layer.slip_modulus_n_per_m / layer.spacing_m;
  const double pi = std::numbers::pi;
  return 1.0 / (1.0 + pi * pi * layer.modulus_pa * layer.area_m2() / (slip_pa * span_m * span_m));
}

}  // namespace

double CompositeSection::normal_stress_pa(std::size_t layer, double moment_nm) const {
  return cooperation[layer] * layers[layer].modulus_pa * distance_m[layer] * moment_nm / stiffness_nm2;
}

double CompositeSection::bending_stress_pa(std::size_t layer, double moment_nm) const {
  return 0.5 * layers[layer].modulus_pa * layers[layer].depth_m * moment_nm / stiffness_nm2;
}

double CompositeSection::fastener_load_n(std::size_t layer, double shear_n) const {
  const CompositeLayer& flange = layers[layer];
  return cooperation[layer] * flange.modulus_pa * flange.area_m2() * distance_m[layer] * flange.spacing_m * shear_n /
         stiffness_nm2;
}

CompositeSection composite_section(const CompositeLayers& layers, double span_m) {
  CompositeSection section;
  section.layers = layers;
  section.cooperation = {cooperation(layers[0], span_m), 1.0, cooperation(layers[2], span_m)};
  const auto stretch_n = [&](std::size_t i) {
    return section.cooperation[i] * layers[i].modulus_pa * layers[i].area_m2();
  };
  const double first_m = (layers[0].depth_m + layers[kWeb].depth_m) / 2.0;
  const double third_m = (layers[kWeb].depth_m + layers[2].depth_m) / 2.0;
  const double sum_n = stretch_n(0) + stretch_n(kWeb) + stretch_n(2);
  const double web_m = (stretch_n(0) * first_m - stretch_n(2) * third_m) / sum_n;
  section.distance_m = {first_m - web_m, web_m, third_m + web_m};
  for (std::size_t i = 0; i < layers.size(); ++i) {
    section.stiffness_nm2 += layers[i].modulus_pa * layers[i].second_moment_m4() +
                             stretch_n(i) * section.distance_m[i] * section.distance_m[i];
  }
  return section;
}

double slip_modulus_n_per_m(bool screw, double mean_density_kg_per_m3, double diameter_m) {
  const double d_mm = diameter_m * units::kMillimetrePerMetre;
  const double density = std::pow(mean_density_kg_per_m3, 1.5);
  return units::kMillimetrePerMetre * (screw ? density * d_mm / 23.0 : density * std::pow(d_mm, 0.8) / 30.0);
}

std::optional<FlangeLimits> flange_limits(std::string_view product, double span_m, double thickness_m) {
  if (product == "plywood") return FlangeLimits{0.1 * span_m, 20.0 * thickness_m};
  if (product.starts_with("OSB/")) return FlangeLimits{0.15 * span_m, 25.0 * thickness_m};
  if (product.starts_with("P")) return FlangeLimits{0.2 * span_m, 30.0 * thickness_m};
  return std::nullopt;
}

}  // namespace panel_dossier::structural
