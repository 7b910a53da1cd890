#include "plugins/thermal/moisture/interstitial.h"

#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/words.h"
#include "plugins/thermal/moisture/charts.h"
#include "plugins/thermal/moisture/glaser.h"
#include "plugins/thermal/moisture/vapour_layers.h"

namespace panel_dossier::thermal {

namespace {

std::vector<CheckInput> interstitial_inputs() {
  // One of the two factors stands for the other where an export gives one alone.
  std::vector<CheckInput> inputs{optional_property("Pset_MaterialHygroscopic.UpperVaporResistanceFactor"),
                                 optional_property("Pset_MaterialHygroscopic.LowerVaporResistanceFactor"),
                                 optional_setting("thermal.condensate_limit"),
                                 optional_setting("thermal.punctured_vapour_control_sd_m"),
                                 data_table("condensate_limits.csv")};
  const auto climate = climate_inputs();
  inputs.insert(inputs.end(), climate.begin(), climate.end());
  return inputs;
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
    builder.step("most condensate " + plane_name(build_up, plane), "M_a," + std::to_string(plane),
                 year.greatest_kg_per_m2[plane], "kg/m²");
  }
  if (year.condenses) {
    builder.note(
        "What condenses at a plane in a month, g_c, is δ_0 times the difference of the slopes Δp / s_d of the vapour "
        "pressure on its inside and its outside, times the length of the month; M_a is what lies there at its end.");
  }
  builder.step("most condensate, all planes together", "M_a,max", year.greatest_total_kg_per_m2, "kg/m²");
  builder.step("condensate left after twelve months", "M_a,12", year.months.back().total_kg_per_m2(), "kg/m²");
  if (year.condenses) {
    builder.table(condensate_table(build_up, year));
    builder.bar_chart(condensation_rate_chart(build_up, year));
    builder.series(condensate_series(build_up, year));
  } else if (build_up.layers.size() > 1) {
    const HumidityYear humidity = humidity_year(build_up, climate);
    builder.step("highest relative humidity " + plane_name(build_up, humidity.worst_plane) + ", in " +
                     std::string(kMonthNames[humidity.worst_month]) + ": vapour pressure over saturation",
                 "φ", 100.0 * humidity.highest[humidity.worst_month], "%");
    builder.series(humidity_series(humidity));
  }
  const VapourProfile profile =
      vapour_profile(build_up, climate[year.critical_month], std::vector<bool>(build_up.layers.size() + 1, false));
  builder.series(pressure_series(profile, critical));
  builder.series(profile_temperature_series(build_up, profile, critical));
}

/// The section that insulates least, when it is another; its materials may lack what the main section has.
void add_second_section(const BuildUp& build_up, const Project& project, const YearClimate& climate,
                        FindingBuilder& builder) {
  const std::size_t least = least_insulated(heat_paths(build_up.bridged));
  if (least == 0) return;
  const SectionArea& section = build_up.bridged.sections[least];
  const std::string name = section_name(build_up.bridged, section);
  FindingBuilder trial(kInterstitialCondensationCheck, "");
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
      "flow and heat of condensation are left out, so leave air-tightness and drying of wet timber to site control "
      "(EN ISO 13788:2012, 6.1). The section through framing is worked out in one dimension and is not judged.");
  builder.note(
      "Of two vapour resistance factors of a material the less favourable counts: the smaller up to the main "
      "insulation, the larger beyond it (as DIN 4108-3, from memory).");
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

const CheckDeclaration kInterstitialCondensationCheck{
    .id = "thermal.interstitial_condensation",
    .title = "Condensation inside of the panel",
    .sentence =
        "In the largest section nothing condenses, or all that condenses dries within twelve months and the "
        "most that is held at the end of a month is at most the limit that the settings name.",
    .clause = "EN ISO 13788:2012, 6",
    .units = {"kg/m²"},
    .kind = CheckKind::limit,
    .scope = CheckScope::panels,
    .inputs = interstitial_inputs(),
    .limits = {"Air that leaks through joints, rain, built-in moisture, capillary flow and heat of condensation are "
               "left out.",
               "The section through framing is worked out in one dimension and is not judged.",
               "The climate is that of mean months, repeated every year."}};

Finding check_interstitial_condensation(const Panel& panel, const Project& project, const Settings& settings,
                                        const Tables& tables, const TransmittanceResult& panel_transmittance) {
  FindingBuilder builder(kInterstitialCondensationCheck, panel.global_id);
  builder.decimals(3);
  if (!panel_transmittance.transmittance) return builder.not_assessed(panel_transmittance.why_not());
  const BuildUp& build_up = panel_transmittance.transmittance->build_up;
  const auto whole = vapour_build_up(build_up, build_up.bridged.sections.front(), project, builder);
  const auto climate = read_climate(settings, tables, builder);
  if (!whole || !climate) return builder.not_assessed();
  const VapourBuildUp fine = subdivided(*whole);
  const GlaserYear year = assess_year(fine, *climate);
  add_layer_table(*whole, builder);
  add_year(fine, *climate, year, builder);
  add_vapour_control({panel, build_up.bridged, *whole, year, *climate}, settings, builder);
  add_second_section(build_up, project, *climate, builder);
  add_scope(builder);
  return judge_year(year, settings, tables, builder);
}

}  // namespace panel_dossier::thermal
