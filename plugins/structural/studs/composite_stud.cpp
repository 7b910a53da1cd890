#include "plugins/structural/studs/composite_stud.h"

#include <algorithm>
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

namespace {

void verify_stud(CompositeCheck& check, const CompositeSection& section, double bending_design_pa,
                 double tension_design_pa, double moment_nm) {
  // Wind acts both ways, so the side on which the web is stretched is met.
  const double normal_pa = std::abs(section.normal_stress_pa(kWeb, moment_nm));
  const double bending_pa = section.bending_stress_pa(kWeb, moment_nm);
  const double utilisation = normal_pa / tension_design_pa + bending_pa / bending_design_pa;
  if (utilisation < check.stud_utilisation) return;
  check.stud_state = section;
  check.stud_normal_pa = normal_pa;
  check.stud_bending_pa = bending_pa;
  check.stud_utilisation = utilisation;
}

void verify_face(CompositeCheck& check, const CompositeSection& section, const CompositeFace& face, std::size_t index,
                 const CompositeFaceStrength& strength, const Forces& forces) {
  const std::size_t layer = face.layer();
  const double normal_pa = section.normal_stress_pa(layer, forces.moment_nm);
  const double bending_pa = section.bending_stress_pa(layer, forces.moment_nm);
  const double in_sheet = normal_pa / strength.normal_pa + bending_pa / strength.bending_pa;
  if (in_sheet >= check.sheet_utilisation) {
    check.sheet_face = index;
    check.sheet_normal_pa = normal_pa;
    check.sheet_bending_pa = bending_pa;
    check.sheet_strength = strength;
    check.sheet_utilisation = in_sheet;
  }
  const double load_n = section.fastener_load_n(layer, forces.shear_n);
  if (load_n / strength.fastener_n < check.fastener_utilisation) return;
  check.fastener_face = index;
  check.fastener_load_n = load_n;
  check.fastener_resistance_n = strength.fastener_n;
  check.fastener_utilisation = load_n / strength.fastener_n;
}

}  // namespace

CompositeSection CompositeStud::section(double slip, double creep) const {
  CompositeLayers layers;
  layers[kWeb] = {web.width_m, web.depth_m, web_modulus_pa / (1.0 + creep * web_deformation_factor), 0.0, 0.0};
  for (const CompositeFace& face : faces) {
    layers[face.layer()] = {face.width_m, face.thickness_m, face.modulus_pa / (1.0 + creep * face.deformation_factor),
                            slip * face.slip_modulus_n_per_m / (1.0 + creep * face.connection_deformation_factor),
                            face.spacing_m};
  }
  return composite_section(layers, span_m);
}

double CompositeStud::creep_factor() const {
  return section(1.0, 0.0).stiffness_nm2 / section(1.0, 1.0).stiffness_nm2 - 1.0;
}

double CompositeCheck::utilisation() const {
  return std::max({stud_utilisation, sheet_utilisation, fastener_utilisation});
}

CompositeFaceStrength face_strength(const CompositeFace& face, double timber_modification,
                                    const std::string& duration) {
  const double factor = face.modification_factors.at(duration);
  const double on_sheet = factor / face.partial_factor;
  return {on_sheet * std::min(face.tension_pa, face.compression_pa), on_sheet * face.bending_pa,
          std::sqrt(timber_modification * factor) * face.fastener_n / face.connection_partial_factor};
}

CompositeCheck verify_composite(const CompositeStud& stud, const std::vector<CompositeFaceStrength>& strengths,
                                double bending_design_pa, double tension_design_pa, const Forces& forces,
                                double creep) {
  CompositeCheck check;
  check.creep = creep;
  check.initial = stud.section(kUltimateSlip, 0.0);
  check.final = stud.section(kUltimateSlip, creep);
  for (const CompositeSection& section : {check.initial, check.final}) {
    verify_stud(check, section, bending_design_pa, tension_design_pa, forces.moment_nm);
    for (std::size_t i = 0; i < stud.faces.size(); ++i) {
      verify_face(check, section, stud.faces[i], i, strengths[i], forces);
    }
  }
  return check;
}

double composite_span_m(const StudSystem& system) {
  if (system.single_span()) return system.length_m;
  double smallest_m = 0.8 * system.longest_span_m();
  for (std::size_t i = 0; i + 1 < system.supports_m.size(); ++i) {
    smallest_m = std::min(smallest_m, 0.8 * (system.supports_m[i + 1] - system.supports_m[i]));
  }
  const double over_m = system.projection_m();
  return over_m > 0.0 ? std::min(smallest_m, 2.0 * over_m) : smallest_m;
}

}  // namespace panel_dossier::structural
