#include "plugins/structural/basis/timber.h"

#include <algorithm>
#include <cmath>

#include "core/api/support/units.h"

namespace panel_dossier::structural {

namespace {

std::string without_blanks(std::string_view name) {
  std::string text(name);
  std::erase(text, ' ');
  return text;
}

}  // namespace

std::string_view to_string(TimberFamily family) {
  return family == TimberFamily::glulam ? "glulam" : "solid";
}

std::optional<TimberClass> timber_class(const DataTable& strength_classes, std::string_view name) {
  TimberClass found;
  found.name = without_blanks(name);
  const auto family = strength_classes.text(found.name, "family");
  if (!family) return std::nullopt;
  found.family = family->value == "glulam" ? TimberFamily::glulam : TimberFamily::solid;
  bool complete = true;
  const auto read = [&](std::string_view column, Sourced<double>& target, double unit = units::kPascalPerNewtonPerMm2) {
    const auto cell = strength_classes.number(found.name, column);
    complete = complete && cell && cell->value > 0.0;
    if (cell) target = {cell->value * unit, cell->origin};
  };
  read("bending", found.bending_pa);
  read("tension_parallel", found.tension_parallel_pa);
  read("compression_parallel", found.compression_parallel_pa);
  read("compression_perpendicular", found.compression_perpendicular_pa);
  read("shear", found.shear_pa);
  read("modulus_mean", found.modulus_mean_pa);
  read("modulus_fifth", found.modulus_fifth_pa);
  read("shear_modulus_mean", found.shear_modulus_mean_pa);
  read("density_characteristic", found.density_kg_per_m3, 1.0);
  read("density_mean", found.density_mean_kg_per_m3, 1.0);
  if (!complete) return std::nullopt;
  return found;
}

double straightness_factor(TimberFamily family) {
  return family == TimberFamily::glulam ? 0.1 : 0.2;
}

double depth_factor(TimberFamily family, double depth_m) {
  if (family == TimberFamily::glulam) return std::clamp(std::pow(0.600 / depth_m, 0.1), 1.0, 1.1);
  return std::clamp(std::pow(0.150 / depth_m, 0.2), 1.0, 1.3);
}

}  // namespace panel_dossier::structural
