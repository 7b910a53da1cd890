#include "plugins/thermal/moisture_interstitial.h"

#include <string>
#include <utility>

#include "core/api/finding_builder.h"
#include "core/api/fixed_text.h"
#include "plugins/thermal/moisture_charts.h"
#include "plugins/thermal/moisture_glaser.h"
#include "plugins/thermal/moisture_layers.h"
#include "plugins/thermal/temperature_profile.h"

namespace panel_dossier::thermal {

namespace {

std::string outcome(const GlaserYear& year) {
  if (!year.condenses) return "nothing condenses";
  return year.dries_out ? "condenses and dries within the year" : "does not dry within the year";
}

void add_layer_table(const VapourBuildUp& build_up, FindingBuilder& builder) {
  Table table{"Layers of the main section, from inside", {{"layer", ""}, {"R", "m²·K/W"}, {"s_d", "m"}}, {}};
  for (const VapourLayer& layer : build_up.layers) {
    table.rows.push_back({layer.name, layer.resistance_m2k_per_w, layer.sd_m});
  }
  builder.table(std::move(table));
}

void add_year(const VapourBuildUp& build_up, const YearClimate& climate, const GlaserYear& year,
              FindingBuilder& builder) {
  const std::string critical(kMonthNames[year.critical_month]);
  builder.step_text("main section", outcome(year));
  builder.step_text("calculation starts in", std::string(kMonthNames[year.months.front().month]));
  builder.step_text(year.condenses ? "month of fastest condensation" : "coldest month", critical);
  for (std::size_t plane = 1; year.condenses && plane < build_up.layers.size(); ++plane) {
    if (year.greatest_kg_per_m2[plane] <= 0.0) continue;
    builder.step("most condensate " + plane_name(build_up, plane), "M_a", year.greatest_kg_per_m2[plane], "kg/m²",
                 "ΣΔM_a, ΔM_a = δ_0 · (Δp/s_d inside − Δp/s_d outside) · t");
  }
  builder.step("most condensate, all planes together", "M_a,max", year.greatest_total_kg_per_m2, "kg/m²");
  builder.step("condensate left after twelve months", "M_a,12", year.months.back().total_kg_per_m2(), "kg/m²");
  builder.table(condensate_table(build_up, year));
  builder.series(condensate_series(build_up, year));
  const VapourProfile profile =
      vapour_profile(build_up, climate[year.critical_month], std::vector<bool>(build_up.layers.size() + 1, false));
  builder.series(pressure_series(profile, critical));
  builder.series(profile_temperature_series(profile, critical));
}

void add_punctured(const VapourBuildUp& whole, std::size_t control, const Settings& settings,
                   const YearClimate& climate, FindingBuilder& builder) {
  const auto punctured = settings.number("thermal.punctured_vapour_control_sd_m");
  if (!punctured) {
    builder.note(
        "What a punctured vapour control layer would change is not worked out: setting "
        "thermal.punctured_vapour_control_sd_m is missing.");
    return;
  }
  const auto sd_m =
      builder.positive("vapour diffusion thickness of the punctured vapour control layer", "s_d,p", "m", punctured, {});
  if (!sd_m) return;
  VapourBuildUp build_up = whole;
  build_up.layers[control].sd_m = *sd_m;
  const GlaserYear year = assess_year(subdivided(build_up), climate);
  builder.step_text("with the vapour control layer punctured", outcome(year));
  builder.step("most condensate then, all planes together", "M_a,max,p", year.greatest_total_kg_per_m2, "kg/m²");
  builder.step("condensate then left after twelve months", "M_a,12,p", year.months.back().total_kg_per_m2(), "kg/m²");
}

void add_vapour_control(const Panel& panel, const BridgedLayers& bridged, const VapourBuildUp& whole,
                        const Settings& settings, const YearClimate& climate, FindingBuilder& builder) {
  const std::size_t insulation = main_insulation_layer(bridged);
  double inside_m = 0.0;
  double outside_m = 0.0;
  for (std::size_t i = 0; i < whole.layers.size(); ++i) {
    if (i < insulation) inside_m += whole.layers[i].sd_m;
    if (i > insulation) outside_m += whole.layers[i].sd_m;
  }
  builder.step("vapour diffusion thickness inside of the main insulation", "s_d,i", inside_m, "m", "Σμ · d");
  builder.step("vapour diffusion thickness outside of the main insulation", "s_d,e", outside_m, "m", "Σμ · d");
  if (outside_m > 0.0) {
    builder.step("ratio, at least 5 by common practice", "s_d,i/s_d,e", inside_m / outside_m, "", "s_d,i / s_d,e");
  }
  const auto control = vapour_control_layer(panel, bridged, whole);
  if (!control) {
    builder.note("No membrane stands on the warm side of the main insulation: the panel has no vapour control layer.");
    return;
  }
  builder.step("vapour control layer '" + whole.layers[*control].name + "', on the warm side", "s_d,vcl",
               whole.layers[*control].sd_m, "m", "μ · d");
  add_punctured(whole, *control, settings, climate, builder);
}

/// The section that insulates least, when it is another; its materials may lack what the main section has.
void add_second_section(const BuildUp& build_up, const Project& project, const YearClimate& climate,
                        FindingBuilder& builder) {
  const std::size_t least = least_insulated(heat_paths(build_up.bridged));
  if (least == 0) return;
  const SectionArea& section = build_up.bridged.sections[least];
  const std::string name = section_name(build_up.bridged, section);
  FindingBuilder trial("", "", "", "");
  if (!vapour_build_up(build_up, section, project, trial)) {
    builder.note("The section through " + name + " is left out: " + trial.not_assessed().reason + ".");
    return;
  }
  const auto layers = vapour_build_up(build_up, section, project, builder);
  const GlaserYear year = assess_year(subdivided(*layers), climate);
  builder.step_text("section through " + name, outcome(year));
  builder.step("most condensate there, all planes together", "M_a,max,b", year.greatest_total_kg_per_m2, "kg/m²");
}

void add_scope(FindingBuilder& builder) {
  builder.note(
      "Diffusion only, steady within each month: air that leaks through joints, rain, built-in moisture, capillary "
      "flow "
      "and heat of condensation are left out, so leave air-tightness and drying of wet timber to site control (EN ISO "
      "13788:2012, 6.1). The section through framing is worked out in one dimension and is not judged.");
  builder.note(
      "Of two vapour resistance factors of a material the less favourable counts: the smaller up to the main "
      "insulation, "
      "the larger beyond it (as DIN 4108-3, from memory).");
}

Finding judge_year(const GlaserYear& year, const Settings& settings, const Tables& tables, FindingBuilder& builder) {
  const double held = year.greatest_total_kg_per_m2;
  const auto key = settings.text("thermal.condensate_limit");
  std::optional<double> limit;
  if (key) {
    builder.text("limit on condensate", key, "setting 'thermal.condensate_limit' is empty");
    limit =
        builder.positive("most condensate that is allowed", "M_a,limit", "kg/m²",
                         tables.condensate_limits.number(key->value, "accumulated_max_kg_per_m2"),
                         "condensate_limits.csv has no row '" + key->value + "' (setting thermal.condensate_limit)");
    if (!limit) return builder.not_assessed();
  }
  Finding finding = limit ? builder.judge(held, "kg/m²", Relation::at_most, *limit,
                                          "condensate of " + fixed_text(held, 3) + " kg/m² is above the limit; " +
                                              "less vapour must enter or more must leave")
                          : builder.inform(held, "kg/m²");
  if (finding.verdict == Verdict::not_assessed) return finding;
  if (!year.condenses) finding.verdict = Verdict::pass;
  if (!year.dries_out) {
    finding.verdict = Verdict::fail;
    finding.reason = fixed_text(year.months.back().total_kg_per_m2(), 3) +
                     " kg/m² of condensate is left after twelve months, so it gathers from year to year";
  }
  return finding;
}

}  // namespace

Finding check_interstitial_condensation(const Panel& panel, const Project& project, const Settings& settings,
                                        const Tables& tables, const TransmittanceResult& panel_transmittance) {
  FindingBuilder builder("thermal.interstitial_condensation", "Condensation inside of the panel", panel.global_id,
                         "EN ISO 13788:2012, 6");
  builder.decimals(3);
  if (!panel_transmittance.transmittance) {
    return builder.not_assessed("thermal.u_value is not assessed: " + panel_transmittance.u_value.reason);
  }
  const BuildUp& build_up = panel_transmittance.transmittance->build_up;
  const auto whole = vapour_build_up(build_up, build_up.bridged.sections.front(), project, builder);
  const auto climate = read_climate(settings, tables, builder);
  if (!whole || !climate) return builder.not_assessed();
  const VapourBuildUp fine = subdivided(*whole);
  const GlaserYear year = assess_year(fine, *climate);
  add_layer_table(*whole, builder);
  add_year(fine, *climate, year, builder);
  add_vapour_control(panel, build_up.bridged, *whole, settings, *climate, builder);
  add_second_section(build_up, project, *climate, builder);
  add_scope(builder);
  return judge_year(year, settings, tables, builder);
}

}  // namespace panel_dossier::thermal
