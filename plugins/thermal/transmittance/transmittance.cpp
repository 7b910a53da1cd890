#include "plugins/thermal/transmittance/transmittance.h"

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/roles.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/thermal/project_limits.h"
#include "plugins/thermal/transmittance/build_up.h"

namespace panel_dossier::thermal {

namespace {

constexpr double kGreatestRatio = 1.5;  // EN ISO 6946:2017, 6.7.2.1
constexpr const char* kTransmittanceUnit = "W/(m²·K)";

void add_layer_table(const Transmittance& t, FindingBuilder& builder) {
  Table table{"Layers, from inside",
              {{"layer", ""}, {"material", ""}, {"d", "mm"}, {"f", ""}, {"R", "m²·K/W"}, {"R_j", "m²·K/W"}},
              {}};
  const auto& layers = t.build_up.bridged.layers;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    for (const LayerSlot& slot : layers[i].slots) {
      const bool first = &slot == &layers[i].slots.front();
      table.rows.push_back({layers[i].name, slot.material, units::millimetres_from_metres(layers[i].thickness_m),
                            slot.fraction, slot.resistance_m2k_per_w,
                            first ? Value(t.resistance.layer_resistances[i]) : Value()});
    }
  }
  builder.table(std::move(table));
}

/// The smallest sections share a row, with the resistance that lets the same heat through their area.
void add_section_table(const Transmittance& t, FindingBuilder& builder) {
  constexpr std::size_t kMostRows = 12;
  Table table{"Sections through the panel", {{"section", ""}, {"f_q", ""}, {"R_q", "m²·K/W"}}, {}};
  const auto paths = heat_paths(t.build_up.bridged);
  double rest = 0.0;
  double conductance = 0.0;
  for (std::size_t i = 0; i < paths.size(); ++i) {
    const double total = resistance_along(paths[i], t.build_up.r_si_m2k_per_w, t.build_up.r_se_m2k_per_w);
    if (i >= kMostRows) {
      rest += paths[i].fraction;
      conductance += paths[i].fraction / total;
      continue;
    }
    table.rows.push_back({section_name(t.build_up.bridged, t.build_up.bridged.sections[i]), paths[i].fraction, total});
  }
  if (rest > 0.0) {
    table.rows.push_back({std::to_string(paths.size() - kMostRows) + " smaller sections", rest, rest / conductance});
  }
  builder.table(std::move(table));
}

/// The area is measured on a grid of 0.01 mm, each point of it once, so the formula is left out where openings overlap,
/// stick out or lie off that grid.
std::string net_area_formula(const Panel& panel, double measured_m2) {
  if (std::abs(measured_m2 - panel.net_area_m2()) > 1e-12) return {};
  std::string formula = "A_net = b · h";
  for (std::size_t i = 0; i < panel.openings.size(); ++i) {
    formula += " − " + numbered_symbol("A_o", i, panel.openings.size());
  }
  return formula;
}

void add_share_steps(const Panel& panel, const BridgedLayers& bridged, FindingBuilder& builder) {
  builder.step("area of the panel without openings", "A_net", bridged.net_area_m2, "m²",
               net_area_formula(panel, bridged.net_area_m2));
  std::size_t number = 0;
  for (const ThermalLayer& layer : bridged.layers) {
    for (std::size_t slot = 1; slot < layer.slots.size(); ++slot) {
      const LayerSlot& bridge = layer.slots[slot];
      const std::string where = bridge.material + " in '" + layer.name + "'";
      const std::string index = std::to_string(++number);
      builder.step("share of " + where, "f_" + index, bridge.fraction, "",
                   bridge.area_terms.empty() ? "" : "f_" + index + " = (" + bridge.area_terms + ") / A_net");
      if (bridge.fraction_at_openings > 0.0) {
        builder.step("of that, additional timber around openings", "f_o" + index, bridge.fraction_at_openings, "");
      }
    }
  }
}

/// Where an air layer is slightly ventilated, both limits lie between two cases, so no formula holds for them.
void add_resistance_steps(const Transmittance& t, FindingBuilder& builder) {
  const CombinedResistance& resistance = t.resistance;
  const bool one_case = !t.build_up.ventilated;
  builder.step("upper limit of the total resistance", "R'_tot", resistance.upper, "m²·K/W",
               one_case ? "R'_tot = 1 / sum(f_q / R_q)" : "");
  builder.step("lower limit of the total resistance", "R''_tot", resistance.lower, "m²·K/W",
               one_case ? "R''_tot = R_si + sum(R_j) + R_se" : "");
  builder.step("ratio of the limits, at most 1.5", "r", resistance.ratio(), "", "r = R'_tot / R''_tot");
  builder.step("total thermal resistance", "R_tot", resistance.total, "m²·K/W", "R_tot = (R'_tot + R''_tot) / 2");
  builder.step("greatest relative error", "e", resistance.max_relative_error() * 100.0, "%",
               "e = (R'_tot − R''_tot) / (2 · R_tot)");
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
  Transmittance t{read_build_up(panel, project, settings, tables, builder), {}, {}};
  if (builder.incomplete()) return std::nullopt;
  t.resistance = total_resistance(t.build_up, t.build_up.r_si_m2k_per_w);
  add_layer_table(t, builder);
  add_section_table(t, builder);
  add_share_steps(panel, t.build_up.bridged, builder);
  add_resistance_steps(t, builder);
  builder.note(
      "Of the layers R_j is the resistance of a whole layer, 1 / R_j the sum of f / R over the materials that stand "
      "beside each other in it; of the sections R_q is that of one section with its surfaces.");
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
  builder.step("thermal transmittance without corrections", "U", u, kTransmittanceUnit, "U = 1 / R_tot");
  t.correction = read_correction(panel, project, settings, tables, t.build_up, u, builder);
}

/// The same calculation without what only the U-value needs.
Finding r_value_finding(FindingBuilder builder, const std::optional<Transmittance>& t) {
  return as_finding_of(kRValueCheck, t ? builder.inform(t->resistance.total, "m²·K/W") : builder.not_assessed());
}

/// What else says that the panel is part of the outer envelope; empty when nothing does.
std::string sign_of_outside(const Panel& panel) {
  for (const Layer& layer : panel.layers) {
    if (layer.is_ventilated.value_or(false)) return "layer '" + layer.name + "' is ventilated";
    if (layer.category == "cladding") return "layer '" + layer.name + "' is cladding";
  }
  for (const Opening& opening : panel.openings) {
    for (const char* set : {"Pset_WindowCommon", "Pset_DoorCommon"}) {
      const auto external = opening.filling_properties.logical(set, "IsExternal");
      if (external && external->value) return std::string(set) + ".IsExternal of '" + opening.name + "' is true";
    }
  }
  return {};
}

bool is_stated_internal(const Panel& panel) {
  const auto external = panel.properties.logical("Pset_WallCommon", "IsExternal");
  return external && !external->value;
}

std::string against_outside(const Panel& panel) {
  const std::string sign = is_stated_internal(panel) ? sign_of_outside(panel) : "";
  if (sign.empty()) return {};
  return "Pset_WallCommon.IsExternal is false (" +
         describe(panel.properties.logical("Pset_WallCommon", "IsExternal")->origin) + ") and " + sign +
         ": one of them is wrong";
}

/// A declared U is printed to two decimals and holds for the panel of its type that has most framing, so one with less
/// may lie below it (common practice); a higher one the declaration does not cover.
std::string against_declared(const Panel& panel, double u, FindingBuilder& builder) {
  constexpr double kRounding_w_per_m2k = 0.005;
  constexpr double kShareBelow = 0.15;
  const auto declared = panel.properties.number("Pset_WallCommon", "ThermalTransmittance");
  if (!declared) return {};
  const auto value = builder.positive("declared U-value of the panel", "U_D", kTransmittanceUnit, declared, {});
  if (!value) return {};
  if (u <= *value + kRounding_w_per_m2k && u >= *value * (1.0 - kShareBelow) - kRounding_w_per_m2k) return {};
  return "the declared Pset_WallCommon.ThermalTransmittance of " + fixed_text(*value, 3) + " W/(m²·K) (" +
         describe(declared->origin) + ") and the " + fixed_text(u, 3) +
         " worked out from layers and parts differ by more than rounding (0.005) and the framing of the panels of a "
         "type (15 % below) explain: one of them is wrong";
}

Finding u_value_finding(FindingBuilder builder, const Panel& panel, const Settings& settings, const Tables& tables,
                        const Transmittance& t) {
  const double u = t.u_w_per_m2k();
  builder.step("thermal transmittance, corrected and unrounded", "U_c", u, kTransmittanceUnit,
               t.correction.applied_w_per_m2k > 0.0 ? "U_c = U + ΔU" : "U_c = U");
  builder.note("The unrounded U is compared with the limit; the printed U is rounded as the standard asks.");
  add_profile(t, settings, builder);
  const std::string why = against_declared(panel, u, builder);
  if (is_stated_internal(panel)) {
    builder.note("Pset_WallCommon.IsExternal is false, so no limit applies.");
    return unless_contradicted(unless_contradicted(builder.inform(u, kTransmittanceUnit), against_outside(panel)), why);
  }
  return unless_contradicted(judge_panel(u, tables.u_value_limits, settings, builder), why);
}

}  // namespace

std::vector<CheckInput> build_up_inputs() {
  return {property("Pset_MaterialThermal.ThermalConductivity"),
          optional_property("Panel_AirLayer.OpeningArea"),
          optional_setting("thermal.air_layer_openings_mm2_per_m"),
          optional_setting("thermal.air_layers_of_unknown_ventilation"),
          optional_setting("thermal.assumed_framing_fraction"),
          optional_setting("thermal.assumed_framing_conductivity_w_per_mk"),
          data_table("air_layers.csv"),
          data_table("surface_resistances.csv")};
}

std::vector<CheckInput> transmittance_inputs() {
  std::vector<CheckInput> inputs = build_up_inputs();
  const std::vector<CheckInput> own{optional_property("Panel_Fastener.DepthInInsulation"),
                                    optional_property("Panel_Fastener.Diameter"),
                                    optional_setting("thermal.fasteners_of_unknown_depth"),
                                    setting("thermal.air_void_level"), data_table("air_void_levels.csv")};
  inputs.insert(inputs.end(), own.begin(), own.end());
  return inputs;
}

namespace {

std::vector<CheckInput> u_value_inputs() {
  std::vector<CheckInput> inputs = transmittance_inputs();
  const std::vector<CheckInput> own{optional_property("Pset_WallCommon.IsExternal"),
                                    optional_property("Pset_WallCommon.ThermalTransmittance"),
                                    optional_property("Pset_WindowCommon.IsExternal"),
                                    optional_property("Pset_DoorCommon.IsExternal"),
                                    optional_setting("thermal.design_u_w_per_m2k"),
                                    optional_setting("thermal.internal_temperature_c"),
                                    optional_setting("thermal.external_temperature_c"),
                                    setting("project.jurisdiction"),
                                    setting("project.use"),
                                    setting("project.assessment_date"),
                                    data_table("u_value_limits.csv")};
  inputs.insert(inputs.end(), own.begin(), own.end());
  return inputs;
}

}  // namespace

const CheckDeclaration kUValueCheck{
    .id = "thermal.u_value",
    .title = "U-value of the panel without its openings",
    .project_title = "Area-weighted average U-value of the panels without their openings",
    .sentence =
        "U of the panel's net area by the combined method, corrected for air voids and fasteners, is at most what the "
        "design asks of each panel and what the rule of the jurisdiction asks of a single wall on the day of "
        "assessment, and is borne out by its declared U-value; the average of all external panels, weighted by net "
        "area, is at most the limit that the rule puts on the average or on each wall.",
    .clause = "EN ISO 6946:2017, 6.7.2 and annex F",
    .other_clauses = {"EN ISO 6946:2017, 6.7.2"},
    .units = {kTransmittanceUnit},
    .kind = CheckKind::limit,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model(u_value_inputs()),
    .limits = {"External walls that are no panels of the export belong in the average of the rule and are not seen.",
               "Low emissivity and the higher resistance of narrow air spaces are left out, on the safe side.",
               "Junctions and points stand under thermal.linear_transmittance and are not part of U.",
               "Conductivities are taken as the export states them; thermal.design_values compares them with tables.",
               "Gaps between slabs count only by the level of air voids that the settings name."},
    .role = std::string(role::kThermalTransmittance)};

const CheckDeclaration kRValueCheck{
    .id = "thermal.r_value",
    .title = "Total thermal resistance of the panel",
    .sentence =
        "R_tot is the mean of the upper and the lower limit of the resistance of the panel's net area, surfaces "
        "included and without corrections.",
    .clause = "EN ISO 6946:2017, 6.7.2 and annex F",
    .units = {"m²·K/W"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels,
    .inputs = with_model(build_up_inputs()),
    .limits = {"Air voids, fasteners and junctions are left out; thermal.u_value holds the first two."}};

TransmittanceResult check_transmittance(const Panel& panel, const Project& project, const Settings& settings,
                                        const Tables& tables) {
  FindingBuilder builder(kUValueCheck, panel.global_id);
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

Finding as_finding_of(const CheckDeclaration& check, Finding finding) {
  finding.check = check.id;
  finding.title = check.title;
  finding.clause = check.clause;
  return finding;
}

void add_panels(const Project& project, const PanelValues& values, const CheckDeclaration& check,
                FindingBuilder& builder) {
  builder.number("panels in the sum", "n", "",
                 Sourced<double>{static_cast<double>(values.entries.size()), project.origin}, {});
  if (!values.whole()) builder.missing(values.what_is_missing(check.id));
}

Finding average_u_value(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                        const Tables& tables) {
  FindingBuilder builder(kUValueCheck, "");
  builder.clause(kUValueCheck.other_clauses.front());
  const PanelValues values = panel_values(panels, kUValueCheck.id);
  add_panels(project, values, kUValueCheck, builder);
  ExactSum area;
  ExactSum loss;
  std::size_t internal = 0;
  for (const PanelValue& entry : values.entries) {
    if (is_stated_internal(*entry.panel)) {
      ++internal;
      continue;
    }
    area.add(entry.panel->net_area_m2());
    loss.add(entry.value * entry.panel->net_area_m2());
  }
  if (internal > 0) {
    builder.step("panels left out, as Pset_WallCommon.IsExternal is false", "n_i", static_cast<double>(internal), "");
  }
  builder.step("area of the external panels without openings", "A_net", area.total(), "m²");
  builder.step("heat transfer coefficient of that area, U · A_net of each panel added up", "H_A", loss.total(), "W/K");
  if (!builder.incomplete() && !(area.total() > 0.0)) builder.missing("no panel is external");
  if (builder.incomplete()) return builder.not_assessed();
  const double average = loss.total() / area.total();
  builder.step("average", "U_m", average, kTransmittanceUnit, "U_m = H_A / A_net");
  return judge_average(average, tables.u_value_limits, settings, builder);
}

}  // namespace panel_dossier::thermal
