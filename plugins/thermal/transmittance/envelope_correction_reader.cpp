#include "plugins/thermal/transmittance/envelope_correction_reader.h"

#include <algorithm>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

#include "core/api/support/fixed_text.h"
#include "plugins/thermal/transmittance/envelope_correction.h"

namespace panel_dossier::thermal {

namespace {

/// An insulation layer of the export, put together again where parts split it.
struct Insulation {
  std::string name;
  double thickness_m = 0.0;
  InsulationShare share;
};

std::vector<Insulation> insulation_layers(const BuildUp& build_up) {
  double total = build_up.r_si_m2k_per_w + build_up.r_se_m2k_per_w;
  std::vector<Insulation> found;
  for (const ThermalLayer& layer : build_up.bridged.layers) {
    const double resistance = layer.slots.front().resistance_m2k_per_w;
    total += resistance;
    if (!layer.is_insulation) continue;
    if (layer.starts_export_layer || found.empty()) found.push_back({layer.export_name, 0.0, {}});
    found.back().thickness_m += layer.thickness_m;
    found.back().share.layer_resistance += resistance;
  }
  for (Insulation& insulation : found) insulation.share.total_resistance = total;
  return found;
}

double air_voids(const std::vector<Insulation>& layers, const Settings& settings, const Tables& tables,
                 FindingBuilder& builder) {
  const auto level =
      builder.number("level of air voids in the insulation", "", "", settings.number("thermal.air_void_level"),
                     "setting 'thermal.air_void_level' is missing (0, 1 or 2)");
  if (!level) return 0.0;
  const std::string row = fixed_text(*level, *level == static_cast<int>(*level) ? 0 : 2);
  const auto value = builder.number("correction for air voids of that level", "ΔU''", "W/(m²·K)",
                                    tables.air_void_levels.number(row, "correction_w_per_m2k"),
                                    "setting 'thermal.air_void_level' must be 0, 1 or 2 and is " + row);
  if (!value) return 0.0;
  double sum = 0.0;
  for (const Insulation& layer : layers) sum += air_void_correction(*value, layer.share);
  builder.step("correction for air voids", "ΔU_g", sum, "W/(m²·K)", "Σ ΔU'' · (R_1 / R_tot,h)²");
  return sum;
}

/// Depth in the insulation in m; none when it is unknown, which the builder then knows.
std::optional<double> depth_in_insulation(const Part& part, const Settings& settings, bool& assumed,
                                          FindingBuilder& builder) {
  const auto depth = part.properties.number("Panel_Fastener", "DepthInInsulation");
  if (depth) return builder.number("length of '" + part.name + "' in the insulation", "d_1", "m", depth, {});
  const auto setting = settings.text("thermal.fasteners_of_unknown_depth");
  if (setting && setting->value == "outside insulation") {
    if (!assumed) builder.text("fasteners without Panel_Fastener.DepthInInsulation are taken to lie", setting, {});
    assumed = true;
    return 0.0;
  }
  builder.missing("fastener '" + part.name +
                  "' has no Panel_Fastener.DepthInInsulation (or setting thermal.fasteners_of_unknown_depth)");
  return std::nullopt;
}

/// Everything about fasteners that do cross; none when something is missing.
std::optional<CrossingFasteners> crossing(const Part& part, const Project& project, double depth_m, double net_area_m2,
                                          const Insulation& layer, FindingBuilder& builder) {
  constexpr double kNoise_m = 0.001;
  const auto diameter = builder.positive("diameter of '" + part.name + "'", "d_f", "m",
                                         part.properties.number("Panel_Fastener", "Diameter"),
                                         "fastener '" + part.name + "' has no Panel_Fastener.Diameter");
  const Material* material = material_at(project, part.material);
  const auto conductivity =
      builder.positive("thermal conductivity of '" + part.name + "'", "λ_f", "W/(m·K)",
                       material != nullptr ? material->thermal_conductivity_w_per_mk() : std::nullopt,
                       "the material of fastener '" + part.name + "' has no Pset_MaterialThermal.ThermalConductivity");
  if (depth_m < 0.0 || depth_m > layer.thickness_m + kNoise_m) {
    builder.missing("Panel_Fastener.DepthInInsulation of '" + part.name +
                    "' must lie between 0 and the thickness of '" + layer.name + "'");
  }
  const auto count = builder.positive("pieces of '" + part.name + "'", "n", "",
                                      Sourced<double>{static_cast<double>(part.count), part.origin}, {});
  if (!diameter || !conductivity || !count || builder.incomplete()) return std::nullopt;
  return CrossingFasteners{*conductivity, std::numbers::pi * *diameter * *diameter / 4.0, *count / net_area_m2,
                           std::min(depth_m, layer.thickness_m), layer.thickness_m};
}

double fasteners(const Panel& panel, const Project& project, const Settings& settings, const Insulation& layer,
                 FindingBuilder& builder) {
  double sum = 0.0;
  bool assumed = false;
  for (const Part& part : panel.parts) {
    if (part.kind != PartKind::fastener) continue;
    const auto depth = depth_in_insulation(part, settings, assumed, builder);
    if (!depth || *depth == 0.0) continue;
    const auto found = crossing(part, project, *depth, panel.net_area_m2(), layer, builder);
    if (!found) continue;
    const double correction = fastener_correction(*found, layer.share);
    builder.step("correction for '" + part.name + "', crossing '" + layer.name + "'", "ΔU_f", correction, "W/(m²·K)",
                 "0.8 · (d_1 / d_0) · λ_f · A_f · n_f / d_0 · (R_1 / R_tot,h)²");
    sum += correction;
  }
  return sum;
}

}  // namespace

double read_correction(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                       const BuildUp& build_up, double u_w_per_m2k, FindingBuilder& builder) {
  const std::vector<Insulation> layers = insulation_layers(build_up);
  if (layers.empty()) {
    builder.note("No layer of category `insulation`: no correction for air voids or fasteners is due.");
    return 0.0;
  }
  const auto thickest = std::max_element(layers.begin(), layers.end(), [](const Insulation& a, const Insulation& b) {
    return a.thickness_m < b.thickness_m;
  });
  const double sum =
      air_voids(layers, settings, tables, builder) + fasteners(panel, project, settings, *thickest, builder);
  if (builder.incomplete()) return 0.0;
  builder.step("sum of the corrections", "ΔU", sum, "W/(m²·K)", "ΔU_g + ΣΔU_f");
  builder.step("sum of the corrections as a share of U", "ΔU/U", 100.0 * sum / u_w_per_m2k, "%");
  if (!may_be_left_out(sum, u_w_per_m2k)) return sum;
  builder.step_text("corrections", "left out, as they are under 3 % of U (EN ISO 6946:2017, annex F)");
  return 0.0;
}

}  // namespace panel_dossier::thermal
