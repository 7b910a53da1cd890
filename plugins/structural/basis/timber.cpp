#include "plugins/structural/basis/timber.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/api/support/units.h"

namespace panel_dossier::structural {

namespace {

std::string without_blanks(std::string_view name) {
  std::string text(name);
  std::erase(text, ' ');
  return text;
}

std::optional<std::string> service_class_of(const Material& material, const Settings& settings,
                                            std::vector<Input>& inputs) {
  auto value = material.properties.number("Panel_Timber", "ServiceClass");
  if (!value) value = settings.number("structural.service_class");
  if (!value) return std::nullopt;
  for (const char* known : {"1", "2", "3"}) {
    if (value->value != static_cast<double>(known[0] - '0')) continue;
    inputs.push_back({"service class", {}, value->value, {}, value->origin});
    return known;
  }
  return std::nullopt;
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

double section_depth_factor(const Section& section, TimberFamily family) {
  return section.outline ? 1.0 : depth_factor(family, section.depth_m);
}

double notch_factor(TimberFamily family) {
  return family == TimberFamily::glulam ? 6.5 : 5.0;
}

std::optional<MemberMaterial> member_material(const Material* material, const std::string& member_name,
                                              const Settings& settings, const Tables& tables, const std::string& annex,
                                              std::vector<std::string>& missing) {
  const auto refuse = [&](std::string why) {
    missing.push_back(std::move(why));
    return std::nullopt;
  };
  if (material == nullptr) return refuse("'" + member_name + "' has no material");
  const auto name = material->strength_class();
  if (!name) return refuse("material '" + material->name + "' has no strength class (Pset_MaterialWood.StrengthGrade)");
  const auto timber = timber_class(tables.strength_classes, name->value);
  if (!timber) return refuse("strength class '" + name->value + "' of material '" + material->name + "' is unknown");
  MemberMaterial found;
  found.timber = *timber;
  found.inputs.push_back({"strength class", {}, name->value, {}, name->origin});
  const auto service_class = service_class_of(*material, settings, found.inputs);
  if (!service_class) {
    return refuse("service class 1, 2 or 3 of material '" + material->name +
                  "' (Panel_Timber.ServiceClass or setting structural.service_class)");
  }
  found.service_class = *service_class;
  const std::string family(to_string(timber->family));
  const auto partial = tables.national_annex.number(annex, "gamma_m_" + family);
  const auto deformation = tables.deformation_factors.number(family + "/" + *service_class, "kdef");
  if (!partial || !deformation) return refuse("no partial or deformation factor for " + family + " timber");
  found.partial_factor = *partial;
  found.deformation_factor = *deformation;
  return found;
}

std::optional<Sourced<double>> modification_factor(const Tables& tables, const MemberMaterial& material,
                                                   const std::string& duration) {
  const std::string key = std::string(to_string(material.timber.family)) + "/" + material.service_class;
  return tables.modification_factors.number(key, duration);
}

}  // namespace panel_dossier::structural
