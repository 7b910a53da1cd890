#include "core/api/support/take_off.h"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include "core/api/support/exact_sum.h"

namespace panel_dossier {

namespace {

/// Boxes are whole nanometres, so half a layer and a part may differ by as much.
constexpr double kRounding_m = 1.0e-9;

bool is_positive(double value) {
  return std::isfinite(value) && value > 0.0;
}

/// The standard has no quantity set for fasteners, so theirs is our own.
bool is_quantity_set(std::string_view name) {
  return name.starts_with("Qto_") || name.starts_with("Panel_FastenerQuantities.");
}

std::optional<Sourced<double>> weight_quantity_kg(const Properties& properties, std::string_view quantity) {
  for (const auto& [name, property] : properties.all()) {
    if (!is_quantity_set(name) || !name.ends_with(quantity)) continue;
    if (const double* value = std::get_if<double>(&property.value); value != nullptr && is_positive(*value)) {
      return Sourced<double>{*value, property.origin};
    }
  }
  return std::nullopt;
}

/// Net first: the gross weight of the standard's quantity sets leaves cut-outs and notches out of account.
std::optional<Sourced<double>> declared_weight_kg(const Properties& properties) {
  const auto net = weight_quantity_kg(properties, ".NetWeight");
  return net ? net : weight_quantity_kg(properties, ".GrossWeight");
}

std::optional<double> mass_by_density(const Project& project, std::optional<std::size_t> material, double volume_m3) {
  const Material* found = material_at(project, material);
  if (found == nullptr) return std::nullopt;
  const auto density = found->density_kg_per_m3();
  if (!density || !is_positive(density->value)) return std::nullopt;
  return density->value * volume_m3;
}

std::string missing_density(const Project& project, const std::string& item, std::optional<std::size_t> material) {
  const Material* found = material_at(project, material);
  if (found == nullptr) return "'" + item + "' has no material";
  return "material '" + found->name + "' has no positive Pset_MaterialCommon.MassDensity";
}

/// One material without density concerns many parts; it is named once.
void note_missing(TakeOff& result, std::string what) {
  const auto& known = result.missing;
  if (std::find(known.begin(), known.end(), what) == known.end()) result.missing.push_back(std::move(what));
}

void add_item(TakeOff& result, TakeOffItem item) {
  if (item.mass_kg) item.mass_kg = rounded_to_millionth(*item.mass_kg);
  result.items.push_back(std::move(item));
}

/// A quantity set counts all pieces together, a shape is one of them.
int drawn_pieces(const Part& part) {
  return part.solid ? std::max(part.count, 1) : 1;
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
  const bool has_volume = part.volume_m3 && is_positive(part.volume_m3->value);
  if (has_volume) item.volume_m3 = part.volume_m3->value * drawn_pieces(part);
  item.declared_mass_kg = declared_weight_kg(part.properties);
  if (item.declared_mass_kg) item.mass_kg = item.declared_mass_kg->value;
  if (!item.mass_kg && !has_volume) {
    note_missing(result, "part '" + part.name + "' has neither a shape nor a volume nor a weight quantity");
  } else if (!item.mass_kg) {
    item.mass_kg = mass_by_density(project, part.material, item.volume_m3);
    if (!item.mass_kg) note_missing(result, missing_density(project, part.name, part.material));
  }
  add_item(result, std::move(item));
}

/// Whether parts of the layer's own material reach through half of it, alone or one behind the other.
bool parts_stand_for(const Panel& panel, const Layer& layer) {
  std::vector<std::pair<double, double>> ranges_m;
  for (const Part& part : panel.parts) {
    if (part.material != layer.material) continue;
    if (!part.bounds) return true;
    const double inside_m = std::max(part.bounds->min.y, layer.y_inside_m);
    const double outside_m = std::min(part.bounds->max.y, layer.y_outside_m);
    if (outside_m > inside_m) ranges_m.emplace_back(inside_m, outside_m);
  }
  std::sort(ranges_m.begin(), ranges_m.end());
  double covered_m = 0.0;
  double reached_m = layer.y_inside_m;
  for (const auto& [inside_m, outside_m] : ranges_m) {
    covered_m += std::max(0.0, outside_m - std::max(inside_m, reached_m));
    reached_m = std::max(reached_m, outside_m);
  }
  return covered_m >= (layer.y_outside_m - layer.y_inside_m) / 2.0 - kRounding_m;
}

void measure_layer(const Panel& panel, const Project& project, std::size_t index, TakeOff& result) {
  const Layer& layer = panel.layers[index];
  if (!layer.material) return;  // an air layer weighs nothing
  TakeOffItem item;
  item.name = layer.name;
  item.layer = index;
  item.material = layer.material;
  const double volume_m3 = panel.net_area_m2() * layer.thickness_m.value;
  if (!is_positive(volume_m3)) {
    note_missing(result,
                 "layer '" + layer.name + "' has no volume: check the panel's size, openings and layer thickness");
    return;
  }
  item.volume_m3 = volume_m3;
  item.mass_kg = mass_by_density(project, layer.material, volume_m3);
  if (!item.mass_kg) note_missing(result, missing_density(project, layer.name, layer.material));
  add_item(result, std::move(item));
}

void measure_filling(const Panel& panel, std::size_t index, TakeOff& result) {
  const Opening& opening = panel.openings[index];
  if (opening.filling_entity.empty()) return;
  const auto fitted = opening.filling_properties.logical("Panel_Filling", "FactoryFitted");
  if (!fitted) {
    note_missing(result, "'" + opening.filling_name + "' does not say Panel_Filling.FactoryFitted");
    return;
  }
  if (!fitted->value) return;
  const auto mass = opening.filling_properties.number("Panel_Filling", "Mass");
  if (!mass || !is_positive(mass->value)) {
    note_missing(result, "'" + opening.filling_name + "' is factory fitted but has no positive Panel_Filling.Mass");
    return;
  }
  TakeOffItem item;
  item.name = opening.filling_name;
  item.opening = index;
  item.declared_mass_kg = mass;
  item.mass_kg = mass->value;
  item.centroid_m = Vec3{(opening.x_min_m + opening.x_max_m) / 2.0, panel.thickness_m.value / 2.0,
                         (opening.z_min_m + opening.z_max_m) / 2.0};
  add_item(result, std::move(item));
}

}  // namespace

std::optional<double> TakeOff::mass_kg() const {
  if (!missing.empty() || items.empty()) return std::nullopt;
  ExactSum sum;
  for (const TakeOffItem& item : items) sum.add(*item.mass_kg);
  return sum.total();
}

std::optional<Vec3> TakeOff::centre_of_gravity_m() const {
  const auto mass = mass_kg();
  if (!mass || *mass <= 0.0) return std::nullopt;
  Vec3 moment;
  for (const TakeOffItem& item : items) {
    if (!item.centroid_m) return std::nullopt;
    moment = moment + *item.centroid_m * *item.mass_kg;
  }
  // To the micrometre: equal panels at other places of the site must have equal centres.
  const Vec3 centre = moment * (1.0 / *mass);
  return Vec3{rounded_to_millionth(centre.x), rounded_to_millionth(centre.y), rounded_to_millionth(centre.z)};
}

std::vector<std::size_t> layers_without_parts(const Panel& panel) {
  std::vector<std::size_t> found;
  if (panel.parts.empty()) return found;
  for (std::size_t i = 0; i < panel.layers.size(); ++i) {
    if (panel.layers[i].material && !parts_stand_for(panel, panel.layers[i])) found.push_back(i);
  }
  return found;
}

std::string missing_part_of(const Layer& layer) {
  return "layer '" + layer.name + "' has no part";
}

TakeOff take_off(const Panel& panel, const Project& project) {
  TakeOff result;
  for (std::size_t i = 0; i < panel.parts.size(); ++i) measure_part(panel, project, i, result);
  for (const std::size_t layer : layers_without_parts(panel)) {
    note_missing(result, missing_part_of(panel.layers[layer]));
  }
  if (panel.parts.empty()) {
    for (std::size_t i = 0; i < panel.layers.size(); ++i) measure_layer(panel, project, i, result);
    if (panel.layers.empty()) note_missing(result, "the panel has neither parts nor material layers");
  }
  for (std::size_t i = 0; i < panel.openings.size(); ++i) measure_filling(panel, i, result);
  return result;
}

}  // namespace panel_dossier
