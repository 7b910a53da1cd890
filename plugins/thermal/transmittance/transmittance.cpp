#include "plugins/thermal/transmittance/transmittance.h"

#include <algorithm>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "plugins/thermal/moisture/temperature_profile.h"
#include "plugins/thermal/transmittance/envelope_correction_reader.h"
#include "plugins/thermal/transmittance/u_value_limit.h"

namespace panel_dossier::thermal {

namespace {

constexpr double kGreatestRatio = 1.5;  // EN ISO 6946:2017, 6.7.2.1

void add_layer_table(const Transmittance& t, FindingBuilder& builder) {
  Table table{
      "Layers, from inside",
      {{"layer", ""}, {"material", ""}, {"d", "mm"}, {"share f", ""}, {"R", "m²·K/W"}, {"R of layer", "m²·K/W"}},
      {}};
  const auto& layers = t.build_up.bridged.layers;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    for (const LayerSlot& slot : layers[i].slots) {
      table.rows.push_back({layers[i].name, slot.material, layers[i].thickness_m * 1000.0, slot.fraction,
                            slot.resistance_m2k_per_w, t.resistance.layer_resistances[i]});
    }
  }
  builder.table(std::move(table));
}

void add_section_table(const Transmittance& t, const std::vector<HeatPath>& paths, FindingBuilder& builder) {
  constexpr std::size_t kMostRows = 12;
  Table table{"Sections through the panel", {{"section", ""}, {"share f", ""}, {"R_tot of section", "m²·K/W"}}, {}};
  double rest = 0.0;
  for (std::size_t i = 0; i < paths.size(); ++i) {
    if (i >= kMostRows) {
      rest += paths[i].fraction;
      continue;
    }
    double total = t.build_up.r_si_m2k_per_w + t.build_up.r_se_m2k_per_w;
    for (const double resistance : paths[i].resistances) total += resistance;
    table.rows.push_back({section_name(t.build_up.bridged, t.build_up.bridged.sections[i]), paths[i].fraction, total});
  }
  if (rest > 0.0) {
    table.rows.push_back({std::to_string(paths.size() - kMostRows) + " smaller sections", rest, std::monostate{}});
  }
  builder.table(std::move(table));
}

void add_share_steps(const BridgedLayers& bridged, FindingBuilder& builder) {
  builder.step("area of the panel without openings", "A_net", bridged.net_area_m2, "m²", "b · h − ΣA_opening");
  for (const ThermalLayer& layer : bridged.layers) {
    for (std::size_t slot = 1; slot < layer.slots.size(); ++slot) {
      const LayerSlot& bridge = layer.slots[slot];
      const std::string where = bridge.material + " in '" + layer.name + "'";
      builder.step("share of " + where, "f", bridge.fraction, "", "A_bridge / A_net");
      if (bridge.fraction_at_openings > 0.0) {
        builder.step("of that, additional timber around openings", "f_o", bridge.fraction_at_openings, "");
      }
    }
  }
}

void add_resistance_steps(const CombinedResistance& resistance, FindingBuilder& builder) {
  builder.step("upper limit of the total resistance", "R'_tot", resistance.upper, "m²·K/W",
               "1 / Σ(f_q / R_tot,q), q over sections");
  builder.step("lower limit of the total resistance", "R''_tot", resistance.lower, "m²·K/W",
               "R_si + Σ R_j + R_se, 1 / R_j = Σ(f_q / R_qj)");
  builder.step("ratio of the limits, at most 1.5", "R'/R''", resistance.ratio(), "", "R'_tot / R''_tot");
  builder.step("total thermal resistance", "R_tot", resistance.total, "m²·K/W", "(R'_tot + R''_tot) / 2");
  builder.step("greatest relative error", "e", resistance.max_relative_error() * 100.0, "%",
               "(R'_tot − R''_tot) / (2 · R_tot)");
}

void add_profile(const Transmittance& t, const Settings& settings, FindingBuilder& builder) {
  const auto internal = settings.number("thermal.internal_temperature_c");
  const auto external = settings.number("thermal.external_temperature_c");
  if (!internal || !external) {
    builder.note(
        "No temperature profile: settings thermal.internal_temperature_c and thermal.external_temperature_c "
        "are needed.");
    return;
  }
  builder.number("internal temperature, for the profile only", "θ_i", "°C", internal, {});
  builder.number("external temperature, for the profile only", "θ_e", "°C", external, {});
  if (builder.incomplete()) return;
  builder.series(temperature_series(t.build_up.bridged, t.build_up.r_si_m2k_per_w, t.build_up.r_se_m2k_per_w,
                                    internal->value, external->value));
}

std::optional<Transmittance> work_out(const Panel& panel, const Project& project, const Settings& settings,
                                      const Tables& tables, FindingBuilder& builder) {
  Transmittance t{read_build_up(panel, project, settings, tables, builder), {}, 0.0};
  if (builder.incomplete()) return std::nullopt;
  t.resistance = total_resistance(t.build_up, t.build_up.r_si_m2k_per_w);
  add_share_steps(t.build_up.bridged, builder);
  add_resistance_steps(t.resistance, builder);
  if (!(t.resistance.ratio() <= kGreatestRatio)) {
    builder.missing(
        "the upper limit of the resistance is more than 1.5 times the lower one, so the combined method is "
        "not to be used (EN ISO 6946:2017, 6.7.2.1); a numerical calculation to EN ISO 10211 is needed");
    return std::nullopt;
  }
  return t;
}

void add_correction(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                    Transmittance& t, FindingBuilder& builder) {
  const double u = t.resistance.transmittance();
  builder.step("thermal transmittance without corrections", "U", u, "W/(m²·K)", "1 / R_tot");
  t.correction_w_per_m2k = read_correction(panel, project, settings, tables, t.build_up, u, builder);
}

/// The same calculation without what only the U-value needs.
Finding r_value_finding(FindingBuilder builder, const std::optional<Transmittance>& t) {
  Finding finding = t ? builder.inform(t->resistance.total, "m²·K/W") : builder.not_assessed();
  finding.check = "thermal.r_value";
  finding.title = "Total thermal resistance of the panel";
  return finding;
}

Finding u_value_finding(FindingBuilder builder, const Panel& panel, const Settings& settings, const Tables& tables,
                        const Transmittance& t) {
  const double u = t.u_w_per_m2k();
  builder.step("thermal transmittance, corrected and unrounded", "U_c", u, "W/(m²·K)", "U + ΔU");
  builder.note("The unrounded U is compared with the limit; the printed U is rounded as the standard asks.");
  builder.note(
      "Where the jurisdiction sets its limit on the area-weighted average of all walls, a single panel above it "
      "is for the designer to judge with the project's average.");
  add_layer_table(t, builder);
  add_section_table(t, heat_paths(t.build_up.bridged), builder);
  add_profile(t, settings, builder);
  const auto external = panel.properties.logical("Pset_WallCommon", "IsExternal");
  if (external && !external->value) {
    builder.note("Pset_WallCommon.IsExternal is false, so no limit applies.");
    return builder.inform(u, "W/(m²·K)");
  }
  return judge_wall(u, "U", tables.u_value_limits, settings, builder);
}

}  // namespace

TransmittanceResult check_transmittance(const Panel& panel, const Project& project, const Settings& settings,
                                        const Tables& tables) {
  FindingBuilder builder("thermal.u_value", "U-value of the panel without its openings", panel.global_id,
                         "EN ISO 6946:2017, 6.7.2 and annex F");
  TransmittanceResult result;
  result.transmittance = work_out(panel, project, settings, tables, builder);
  result.r_value = r_value_finding(builder, result.transmittance);
  if (result.transmittance) add_correction(panel, project, settings, tables, *result.transmittance, builder);
  if (builder.incomplete()) result.transmittance.reset();
  result.u_value = result.transmittance
                       ? u_value_finding(std::move(builder), panel, settings, tables, *result.transmittance)
                       : builder.not_assessed();
  return result;
}

}  // namespace panel_dossier::thermal
