#include "plugins/thermal/transmittance/envelope_correction.h"

#include <algorithm>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

#include "core/api/support/tolerances.h"
#include "core/api/support/words.h"

namespace panel_dossier::thermal {

namespace {

/// An insulation layer of the export, put together again where parts split it.
struct Insulation {
  std::string name;
  double thickness_m = 0.0;
  InsulationShare share;
  std::string symbol;  ///< of its resistance among the steps
};

std::vector<Insulation> insulation_layers(const BuildUp& build_up) {
  double total = build_up.r_si_m2k_per_w + build_up.r_se_m2k_per_w;
  std::vector<Insulation> found;
  for (const ThermalLayer& layer : build_up.bridged.layers) {
    const double resistance = layer.slots.front().resistance_m2k_per_w;
    total += resistance;
    if (!layer.is_insulation) continue;
    if (layer.starts_export_layer || found.empty()) found.push_back({layer.export_name, 0.0, {}, {}});
    found.back().thickness_m += layer.thickness_m;
    found.back().share.layer_resistance += resistance;
  }
  for (Insulation& insulation : found) insulation.share.total_resistance = total;
  return found;
}

/// `(R_1 / R_tot,h)²` in the symbols of the finding.
std::string share_squared(const Insulation& layer) {
  return "(" + layer.symbol + " / R_tot,h)²";
}

void add_resistances(std::vector<Insulation>& layers, FindingBuilder& builder) {
  builder.step("total resistance through the main material of each layer, thermal bridges disregarded", "R_tot,h",
               layers.front().share.total_resistance, "m²·K/W");
  for (std::size_t i = 0; i < layers.size(); ++i) {
    layers[i].symbol = numbered_symbol("R_1", i, layers.size());
    builder.step("resistance of the insulation in '" + layers[i].name + "'", layers[i].symbol,
                 layers[i].share.layer_resistance, "m²·K/W");
  }
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
  std::string shares;
  for (const Insulation& layer : layers) {
    sum += air_void_correction(*value, layer.share);
    shares += (shares.empty() ? "" : " + ") + share_squared(layer);
  }
  builder.step("correction for air voids", "ΔU_g", sum, "W/(m²·K)", "ΔU_g = ΔU'' · (" + shares + ")");
  return sum;
}

/// The fasteners of a panel, one kind after the other.
class FastenerReader {
 public:
  FastenerReader(const Panel& panel, double net_area_m2, const Project& project, const Settings& settings,
                 const Insulation& layer, FindingBuilder& builder)
      : net_area_m2_(net_area_m2), project_(project), settings_(settings), layer_(layer), builder_(builder) {
    count_ = static_cast<std::size_t>(std::count_if(panel.parts.begin(), panel.parts.end(),
                                                    [](const Part& part) { return part.kind == PartKind::fastener; }));
  }

  void add(const Part& part) {
    const std::size_t number = read_++;
    const auto symbol = [&](const char* of_one) { return numbered_symbol(of_one, number, count_); };
    const auto depth = depth_in_insulation(part, symbol("d_1"));
    if (!depth || *depth == 0.0) return;
    const auto found = crossing(part, *depth, symbol("d_f"), symbol("λ_f"), symbol("n"));
    if (!found) return;
    const double correction = fastener_correction(*found, layer_.share);
    if (!(correction > 0.0)) {
      builder_.note("No correction is due for '" + part.name + "', which conducts less than 1 W/(m·K).");
      return;
    }
    if (terms_.empty()) builder_.step("thickness of '" + layer_.name + "'", "d_0", layer_.thickness_m, "m");
    builder_.step("cross-section of one '" + part.name + "'", symbol("A_f"), found->cross_section_m2, "m²",
                  symbol("A_f") + " = π · " + symbol("d_f") + "² / 4");
    builder_.step("pieces on each square metre", symbol("n_f"), found->per_m2, "1/m²",
                  symbol("n_f") + " = " + symbol("n") + " / A_net");
    builder_.step("correction for '" + part.name + "', crossing '" + layer_.name + "'", symbol("ΔU_f"), correction,
                  "W/(m²·K)",
                  symbol("ΔU_f") + " = 0.8 · min(" + symbol("d_1") + "; d_0) / d_0 · " + symbol("λ_f") + " · " +
                      symbol("A_f") + " · " + symbol("n_f") + " / d_0 · " + share_squared(layer_));
    sum_ += correction;
    terms_ += " + " + symbol("ΔU_f");
  }

  double sum_w_per_m2k() const { return sum_; }
  /// ` + ΔU_f,1 + ΔU_f,3`; empty when none crosses.
  const std::string& terms() const { return terms_; }

 private:
  double net_area_m2_;
  const Project& project_;
  const Settings& settings_;
  const Insulation& layer_;
  FindingBuilder& builder_;
  std::size_t count_ = 0;
  std::size_t read_ = 0;
  bool assumed_ = false;
  double sum_ = 0.0;
  std::string terms_;

  /// In m; none when it is unknown, which the builder then knows.
  std::optional<double> depth_in_insulation(const Part& part, const std::string& symbol) {
    const auto depth = part.properties.number("Panel_Fastener", "DepthInInsulation");
    if (depth) return builder_.number("length of '" + part.name + "' in the insulation", symbol, "m", depth, {});
    const auto setting = settings_.text("thermal.fasteners_of_unknown_depth");
    if (setting && setting->value == "outside insulation") {
      if (!assumed_) builder_.text("fasteners without Panel_Fastener.DepthInInsulation are taken to lie", setting, {});
      assumed_ = true;
      return 0.0;
    }
    builder_.missing("fastener '" + part.name +
                     "' has no Panel_Fastener.DepthInInsulation (or setting thermal.fasteners_of_unknown_depth)");
    return std::nullopt;
  }

  /// Everything about fasteners that do cross; none when something is missing.
  std::optional<CrossingFasteners> crossing(const Part& part, double depth_m, const std::string& diameter_symbol,
                                            const std::string& conductivity_symbol, const std::string& count_symbol) {
    const auto diameter = builder_.positive("diameter of '" + part.name + "'", diameter_symbol, "m",
                                            part.properties.number("Panel_Fastener", "Diameter"),
                                            "fastener '" + part.name + "' has no Panel_Fastener.Diameter");
    const Material* material = material_at(project_, part.material);
    const auto conductivity = builder_.positive(
        "thermal conductivity of '" + part.name + "'", conductivity_symbol, "W/(m·K)",
        material != nullptr ? material->thermal_conductivity_w_per_mk() : std::nullopt,
        "the material of fastener '" + part.name + "' has no Pset_MaterialThermal.ThermalConductivity");
    if (depth_m < 0.0 || depth_m > layer_.thickness_m + tolerance::kModelling_m) {
      builder_.missing("Panel_Fastener.DepthInInsulation of '" + part.name +
                       "' must lie between 0 and the thickness of '" + layer_.name + "'");
    }
    const auto count = builder_.positive("pieces of '" + part.name + "'", count_symbol, "",
                                         Sourced<double>{static_cast<double>(part.count), part.origin}, {});
    if (!diameter || !conductivity || !count || builder_.incomplete()) return std::nullopt;
    return CrossingFasteners{*conductivity, std::numbers::pi * *diameter * *diameter / 4.0, *count / net_area_m2_,
                             std::min(depth_m, layer_.thickness_m), layer_.thickness_m};
  }
};

}  // namespace

double InsulationShare::squared() const {
  const double share = layer_resistance / total_resistance;
  return share * share;
}

double air_void_correction(double level_w_per_m2k, const InsulationShare& share) {
  return level_w_per_m2k * share.squared();
}

double fastener_correction(const CrossingFasteners& fasteners, const InsulationShare& share) {
  constexpr double kLeastConductivity_w_per_mk = 1.0;
  if (fasteners.conductivity_w_per_mk < kLeastConductivity_w_per_mk) return 0.0;
  const double alpha = 0.8 * fasteners.depth_m / fasteners.layer_m;
  return alpha * fasteners.conductivity_w_per_mk * fasteners.cross_section_m2 * fasteners.per_m2 / fasteners.layer_m *
         share.squared();
}

bool may_be_left_out(double correction_w_per_m2k, double u_w_per_m2k) {
  constexpr double kLeastShare = 0.03;
  return correction_w_per_m2k < kLeastShare * u_w_per_m2k;
}

EnvelopeCorrection read_correction(const Panel& panel, const Project& project, const Settings& settings,
                                   const Tables& tables, const BuildUp& build_up, double u_w_per_m2k,
                                   FindingBuilder& builder) {
  std::vector<Insulation> layers = insulation_layers(build_up);
  if (layers.empty()) {
    builder.note(
        "No layer is insulation, by category or by a conductivity of at most 0.065 W/(m·K): no correction for air "
        "voids "
        "or fasteners is due.");
    return {};
  }
  add_resistances(layers, builder);
  const auto thickest = std::max_element(layers.begin(), layers.end(), [](const Insulation& a, const Insulation& b) {
    return a.thickness_m < b.thickness_m;
  });
  const double voids = air_voids(layers, settings, tables, builder);
  FastenerReader fasteners(panel, build_up.bridged.net_area_m2, project, settings, *thickest, builder);
  for (const Part& part : panel.parts) {
    if (part.kind == PartKind::fastener) fasteners.add(part);
  }
  const double sum = voids + fasteners.sum_w_per_m2k();
  if (builder.incomplete()) return {};
  builder.step("sum of the corrections", "ΔU", sum, "W/(m²·K)", "ΔU = ΔU_g" + fasteners.terms());
  builder.step("sum of the corrections as a share of U", "p_ΔU", 100.0 * sum / u_w_per_m2k, "%", "p_ΔU = ΔU / U");
  if (!may_be_left_out(sum, u_w_per_m2k)) return {sum, sum};
  builder.step_text("corrections", "left out, as they are under 3 % of U (EN ISO 6946:2017, annex F)");
  return {sum, 0.0};
}

}  // namespace panel_dossier::thermal
