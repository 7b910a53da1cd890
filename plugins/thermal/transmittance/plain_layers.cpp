#include "plugins/thermal/transmittance/plain_layers.h"

#include <algorithm>

#include "core/api/support/tolerances.h"
#include "core/api/support/units.h"

namespace panel_dossier::thermal {

namespace {

constexpr double kMostOfInsulation_w_per_mk = 0.065;

/// A layer cannot be thicker than its panel.
void check_thickness(const Panel& panel, const Layer& layer, FindingBuilder& builder) {
  if (layer.thickness_m.value > panel.thickness_m.value + tolerance::kModelling_m) {
    builder.missing("layer '" + layer.name + "' is thicker than the panel (" + describe(layer.thickness_m.origin) +
                    ")");
  }
}

/// Air in a stated solid would have the resistance of air. Battens between which the air stands are no contradiction.
void check_air(const Layer& layer, const Project& project, FindingBuilder& builder) {
  constexpr double kMostOfAir_w_per_mk = 0.03;
  const Material* material = material_at(project, layer.material);
  if (material == nullptr || material->category == "air") return;
  const auto conductivity = material->thermal_conductivity_w_per_mk();
  if (material->category.empty() && !(conductivity && conductivity->value > kMostOfAir_w_per_mk)) return;
  if (material->category == "wood" && !(conductivity && conductivity->value <= kMostOfInsulation_w_per_mk)) return;
  builder.missing("layer '" + layer.name + "' is air by its category or IfcMaterialLayer.IsVentilated (" +
                  describe(layer.origin) + ") and of the material '" + material->name + "' (" +
                  describe(material->origin) + "): one of them is wrong");
}

double share_of_openings(const Layer& layer, const Sourced<double>& openings, FindingBuilder& builder) {
  const auto area =
      builder.number("openings of air layer '" + layer.name + "' to the outside", "A_v", "mm²/m", openings, {});
  if (!area) return 0.0;
  if (*area < 0.0) builder.missing("openings of air layer '" + layer.name + "' must not be below 0");
  const double share = ventilated_share(*area);
  if (share > 0.0 && layer.is_ventilated && !*layer.is_ventilated) {
    builder.missing("air layer '" + layer.name +
                    "' has openings of more than 500 mm²/m although IfcMaterialLayer.IsVentilated is FALSE");
  }
  return share;
}

/// IFC writes `unknown` both for an air layer without air exchange and for one of which nothing is known, so only the
/// project can say which is meant.
double read_ventilated_share(const Layer& layer, const Settings& settings, FindingBuilder& builder) {
  if (const auto openings = layer.properties.number("Panel_AirLayer", "OpeningArea")) {
    return share_of_openings(layer, *openings, builder);
  }
  if (layer.is_ventilated) return *layer.is_ventilated ? 1.0 : 0.0;
  if (const auto openings = settings.number("thermal.air_layer_openings_mm2_per_m")) {
    return share_of_openings(layer, *openings, builder);
  }
  const auto assumed = settings.text("thermal.air_layers_of_unknown_ventilation");
  if (assumed && assumed->value == "unventilated") {
    builder.text("air layer '" + layer.name + "' of unknown ventilation is taken as", assumed, {});
    return 0.0;
  }
  builder.missing("air layer '" + layer.name +
                  "' does not say whether it is ventilated (IfcMaterialLayer.IsVentilated, Panel_AirLayer.OpeningArea, "
                  "or setting thermal.air_layers_of_unknown_ventilation)");
  return 0.0;
}

void read_air(const Tables& tables, HeatFlow heat_flow, PlainLayer& result, FindingBuilder& builder) {
  const Layer& layer = *result.layer;
  result.material = "air";
  const auto resistance = air_layer_resistance(tables.air_layers, result.thickness_m, heat_flow);
  const auto found =
      builder.number("thermal resistance of unventilated air layer '" + layer.name + "'", "R_g", "m²·K/W", resistance,
                     "air layer '" + layer.name + "' is thicker than the 300 mm that EN ISO 6946 table 8 covers");
  if (found) result.resistance_m2k_per_w = *found;
}

void read_solid(const Project& project, ConductivityReader& conductivities, PlainLayer& result,
                FindingBuilder& builder) {
  const Layer& layer = *result.layer;
  const Material& material = project.materials[*layer.material];
  result.material = material.name;
  result.material_index = layer.material;
  if (is_membrane(layer) && !material.thermal_conductivity_w_per_mk()) {
    builder.note("Membrane '" + layer.name + "' has no thermal conductivity; its resistance is taken as zero, on the " +
                 "safe side.");
    return;
  }
  const auto conductivity = conductivities.conductivity_w_per_mk(*layer.material);
  if (conductivity) result.resistance_m2k_per_w = result.thickness_m / *conductivity;
}

}  // namespace

std::string_view to_string(HeatFlow direction) {
  switch (direction) {
    case HeatFlow::upwards: return "upwards";
    case HeatFlow::downwards: return "downwards";
    case HeatFlow::horizontal: break;
  }
  return "horizontal";
}

HeatFlow heat_flow_through(const Panel& panel) {
  constexpr double kSineOf30Degrees = 0.5;
  const double outward_rise = panel.frame.y_axis.z;
  if (outward_rise > kSineOf30Degrees) return HeatFlow::upwards;
  if (outward_rise < -kSineOf30Degrees) return HeatFlow::downwards;
  return HeatFlow::horizontal;
}

std::optional<Sourced<double>> air_layer_resistance(const DataTable& table, double thickness_m, HeatFlow direction) {
  const double thickness_mm = units::millimetres_from_metres(thickness_m);
  std::optional<Sourced<double>> below;
  double below_mm = 0.0;
  for (const std::string& key : table.keys()) {
    const auto row_mm = table.number(key, "thickness_mm");
    auto resistance = table.number(key, to_string(direction));
    if (!row_mm || !resistance || row_mm->value < 0.0) continue;
    if (row_mm->value == thickness_mm) return resistance;
    if (row_mm->value > thickness_mm) {
      if (!below) return std::nullopt;
      const double share = (thickness_mm - below_mm) / (row_mm->value - below_mm);
      below->value += share * (resistance->value - below->value);
      return below;
    }
    below = resistance;
    below_mm = row_mm->value;
  }
  return std::nullopt;
}

double ventilated_share(double openings_mm2_per_m) {
  constexpr double kUnventilated_mm2_per_m = 500.0;
  constexpr double kWellVentilated_mm2_per_m = 1500.0;
  return std::clamp(
      (openings_mm2_per_m - kUnventilated_mm2_per_m) / (kWellVentilated_mm2_per_m - kUnventilated_mm2_per_m), 0.0, 1.0);
}

std::optional<double> ConductivityReader::conductivity_w_per_mk(std::size_t material) {
  const auto known = known_.find(material);
  if (known != known_.end()) return known->second;
  const Material& found = project_.materials[material];
  const auto value = builder_.positive("thermal conductivity of '" + found.name + "'", "λ", "W/(m·K)",
                                       found.thermal_conductivity_w_per_mk(),
                                       "material '" + found.name + "' has no Pset_MaterialThermal.ThermalConductivity");
  known_.emplace(material, value);
  return value;
}

bool is_membrane(const Layer& layer) {
  constexpr double kThickest_m = 0.005;
  return layer.category == "membrane" && layer.thickness_m.value <= kThickest_m;
}

bool is_air_layer(const Layer& layer, const Project& project) {
  const Material* material = material_at(project, layer.material);
  if (material == nullptr || layer.category == "air" || material->category == "air") return true;
  return layer.is_ventilated.value_or(false);
}

bool is_insulating(const Layer& layer, const Project& project) {
  if (is_membrane(layer) || is_air_layer(layer, project)) return false;
  const Material& material = project.materials[*layer.material];
  if (layer.category == "insulation" || material.category == "insulation") return true;
  const auto conductivity = material.thermal_conductivity_w_per_mk();
  return conductivity && conductivity->value > 0.0 && conductivity->value <= kMostOfInsulation_w_per_mk;
}

bool is_metal(const Material& material) {
  constexpr double kLeastOfMetal_w_per_mk = 10.0;
  if (material.category == "steel" || material.category == "metal" || material.category == "aluminium") return true;
  const auto conductivity = material.thermal_conductivity_w_per_mk();
  return conductivity && conductivity->value >= kLeastOfMetal_w_per_mk;
}

PlainLayers read_plain_layers(const Panel& panel, const Project& project, const Settings& settings,
                              const Tables& tables, HeatFlow heat_flow, ConductivityReader& conductivities,
                              FindingBuilder& builder) {
  PlainLayers result;
  for (std::size_t i = 0; i < panel.layers.size(); ++i) {
    const Layer& layer = panel.layers[i];
    PlainLayer plain;
    plain.layer = &layer;
    plain.index = i;
    plain.is_air = is_air_layer(layer, project);
    plain.is_insulation = is_insulating(layer, project);
    if (plain.is_air) {
      check_air(layer, project, builder);
      plain.ventilated_share = read_ventilated_share(layer, settings, builder);
    }
    if (plain.ventilated_share >= 1.0) {
      result.ends_at_cavity = true;
      break;
    }
    const auto thickness = builder.positive("thickness of '" + layer.name + "'", "d", "m", layer.thickness_m, {});
    if (!thickness) continue;
    plain.thickness_m = *thickness;
    check_thickness(panel, layer, builder);
    if (plain.is_air) {
      read_air(tables, heat_flow, plain, builder);
    } else {
      read_solid(project, conductivities, plain, builder);
    }
    result.layers.push_back(std::move(plain));
  }
  return result;
}

}  // namespace panel_dossier::thermal
