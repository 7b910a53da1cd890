#include "core/api/take_off.h"

#include <utility>

namespace panel_dossier {

namespace {

std::optional<double> declared_weight_kg(const Properties& properties) {
  for (const auto& [name, property] : properties.all()) {
    if (name.rfind("Qto_", 0) != 0) continue;
    const bool weight = name.ends_with(".NetWeight") || name.ends_with(".GrossWeight");
    if (const double* value = std::get_if<double>(&property.value); weight && value != nullptr) return *value;
  }
  return std::nullopt;
}

std::optional<double> mass_by_density(const Project& project, std::optional<std::size_t> material, double volume_m3) {
  const Material* found = material_at(project, material);
  if (found == nullptr) return std::nullopt;
  const auto density = found->density_kg_per_m3();
  if (!density || density->value <= 0.0) return std::nullopt;
  return density->value * volume_m3;
}

std::string missing_density(const Project& project, const std::string& item, std::optional<std::size_t> material) {
  const Material* found = material_at(project, material);
  if (found == nullptr) return "'" + item + "' has no material";
  return "material '" + found->name + "' has no positive Pset_MaterialCommon.MassDensity";
}

void measure_part(const Panel& panel, const Project& project, std::size_t index, TakeOff& result) {
  const Part& part = panel.parts[index];
  TakeOffItem item;
  item.name = part.name;
  item.part = index;
  item.material = part.material;
  if (part.solid) {
    item.centroid_m = part.solid->centroid();
  } else if (part.bounds) {
    item.centroid_m = part.bounds->centre();
  }
  if (part.volume_m3) item.volume_m3 = part.volume_m3->value;
  item.mass_kg = declared_weight_kg(part.properties);
  if (!item.mass_kg && !part.volume_m3) {
    result.missing.push_back("part '" + part.name + "' has neither a shape nor a volume nor a weight quantity");
  } else if (!item.mass_kg) {
    item.mass_kg = mass_by_density(project, part.material, item.volume_m3);
    if (!item.mass_kg) result.missing.push_back(missing_density(project, part.name, part.material));
  }
  result.items.push_back(std::move(item));
}

void measure_layer(const Panel& panel, const Project& project, std::size_t index, TakeOff& result) {
  const Layer& layer = panel.layers[index];
  if (!layer.material) return;  // an air layer weighs nothing
  TakeOffItem item;
  item.name = layer.name;
  item.layer = index;
  item.material = layer.material;
  item.volume_m3 = panel.net_area_m2() * layer.thickness_m.value;
  item.mass_kg = mass_by_density(project, layer.material, item.volume_m3);
  if (!item.mass_kg) result.missing.push_back(missing_density(project, layer.name, layer.material));
  result.items.push_back(std::move(item));
}

void measure_filling(const Panel& panel, std::size_t index, TakeOff& result) {
  const Opening& opening = panel.openings[index];
  if (opening.filling_entity.empty()) return;
  const auto fitted = opening.filling_properties.logical("Panel_Filling", "FactoryFitted");
  if (!fitted) {
    result.missing.push_back("'" + opening.filling_name + "' does not say Panel_Filling.FactoryFitted");
    return;
  }
  if (!fitted->value) return;
  const auto mass = opening.filling_properties.number("Panel_Filling", "Mass");
  if (!mass || mass->value <= 0.0) {
    result.missing.push_back("'" + opening.filling_name + "' is factory fitted but has no positive Panel_Filling.Mass");
    return;
  }
  TakeOffItem item;
  item.name = opening.filling_name;
  item.opening = index;
  item.mass_kg = mass->value;
  item.centroid_m = Vec3{(opening.x_min_m + opening.x_max_m) / 2.0, panel.thickness_m.value / 2.0,
                         (opening.z_min_m + opening.z_max_m) / 2.0};
  result.items.push_back(std::move(item));
}

}  // namespace

std::optional<double> TakeOff::mass_kg() const {
  if (!missing.empty() || items.empty()) return std::nullopt;
  double sum = 0.0;
  for (const TakeOffItem& item : items) sum += *item.mass_kg;
  return sum;
}

std::optional<Vec3> TakeOff::centre_of_gravity_m() const {
  const auto mass = mass_kg();
  if (!mass || *mass <= 0.0) return std::nullopt;
  Vec3 moment;
  for (const TakeOffItem& item : items) {
    if (!item.centroid_m) return std::nullopt;
    moment = moment + *item.centroid_m * *item.mass_kg;
  }
  return moment * (1.0 / *mass);
}

TakeOff take_off(const Panel& panel, const Project& project) {
  TakeOff result;
  for (std::size_t i = 0; i < panel.parts.size(); ++i) measure_part(panel, project, i, result);
  if (panel.parts.empty()) {
    for (std::size_t i = 0; i < panel.layers.size(); ++i) measure_layer(panel, project, i, result);
    if (panel.layers.empty()) result.missing.push_back("the panel has neither parts nor material layers");
  }
  for (std::size_t i = 0; i < panel.openings.size(); ++i) measure_filling(panel, i, result);
  return result;
}

}  // namespace panel_dossier
