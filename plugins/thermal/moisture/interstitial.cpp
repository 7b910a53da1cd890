#include "plugins/thermal/moisture/interstitial.h"

#include <algorithm>
#include <utility>

#include "core/api/support/words.h"
#include "plugins/thermal/check_inputs.h"
#include "plugins/thermal/moisture/charts.h"

namespace panel_dossier::thermal {

namespace {

constexpr double kAirLayer_sd_m = 0.01;

/// The names of the two factors are used either way round in exports, so the larger and the smaller are told by value.
std::optional<Sourced<double>> less_favourable_factor(const Material& material, bool warm_side) {
  const auto first = material.vapour_resistance_factor();
  const auto second = material.properties.number("Pset_MaterialHygroscopic", "LowerVaporResistanceFactor");
  if (!first || !second) return first ? first : second;
  return (first->value < second->value) == warm_side ? first : second;
}

std::optional<double> vapour_resistance_factor(const LayerSlot& slot, bool warm_side, const Project& project,
                                               FindingBuilder& builder) {
  const std::string& name = slot.material;
  const Material* material = material_at(project, slot.material_index);
  if (material == nullptr) {
    builder.missing("'" + name + "' is not a material of the export, so its water vapour resistance is unknown");
    return std::nullopt;
  }
  const auto factor = builder.number(
      "water vapour resistance factor of '" + name + "', " + (warm_side ? "smaller" : "larger") + " value", "μ", "",
      less_favourable_factor(*material, warm_side),
      "material '" + name + "' has no Pset_MaterialHygroscopic.UpperVaporResistanceFactor");
  if (!factor || *factor >= 1.0) return factor;
  builder.missing("the water vapour resistance factor of '" + name +
                  "' (Pset_MaterialHygroscopic.UpperVaporResistanceFactor or LowerVaporResistanceFactor) is below 1, "
                  "that of air");
  return std::nullopt;
}

constexpr double kLeastRatio = 5.0;            // common practice
constexpr double kGreatestShareInside = 0.20;  // DIN 4108-3:2018, 5.3, from memory

std::string name_and_sd(const VapourLayer& layer) {
  return "'" + layer.name + "' (s_d " + fixed_text(layer.sd_m, 2) + " m)";
}

void add_both_sides(const AssessedSection& section, std::size_t insulation, FindingBuilder& builder) {
  const auto& layers = section.build_up.layers;
  double inside_m = 0.0;
  double outside_m = 0.0;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    if (i < insulation) inside_m += layers[i].sd_m;
    if (i > insulation) outside_m += layers[i].sd_m;
  }
  builder.step("vapour diffusion thickness inside of the main insulation, s_d of those layers added up", "s_d,i",
               inside_m, "m");
  builder.step("vapour diffusion thickness outside of the main insulation, likewise", "s_d,e", outside_m, "m");
  if (outside_m <= 0.0) return;
  builder.step("ratio, at least 5 by common practice", "r_sd", inside_m / outside_m, "", "r_sd = s_d,i / s_d,e");
  if (inside_m / outside_m >= kLeastRatio) return;
  builder.note(
      "The inside of the main insulation is less than 5 times as tight against vapour as its outside (common "
      "practice asks for that): drying to the outside is not assured by the order of the layers alone.");
}

/// The tightest layer belongs on the warm side, whatever it is made of.
void add_tightest(const AssessedSection& section, std::size_t insulation, FindingBuilder& builder) {
  const auto& layers = section.build_up.layers;
  const auto tightest = std::max_element(layers.begin(), layers.end(),
                                         [](const VapourLayer& a, const VapourLayer& b) { return a.sd_m < b.sd_m; });
  const auto index = static_cast<std::size_t>(tightest - layers.begin());
  const std::string side = index < insulation ? "inside of" : index == insulation ? "is" : "outside of";
  builder.step_text("layer tightest against vapour", name_and_sd(*tightest) + ", " + side + " the main insulation");
  if (index <= insulation) return;
  builder.note("The layer tightest against vapour, " + name_and_sd(*tightest) +
               ", stands outside of the main insulation, where it is cold: vapour gathers before it.");
}

void add_position(const AssessedSection& section, std::size_t control, FindingBuilder& builder) {
  const auto& layers = section.build_up.layers;
  builder.step("vapour control layer '" + layers[control].name + "', on the warm side", "s_d,vcl", layers[control].sd_m,
               "m");
  double inside = 0.0;
  double all = 0.0;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    all += layers[i].resistance_m2k_per_w;
    if (i < control) inside += layers[i].resistance_m2k_per_w;
  }
  const double share = inside / all;
  builder.step("resistance of the layers inside of it", "R_i", inside, "m²·K/W");
  builder.step("resistance of all layers", "ΣR", all, "m²·K/W", "ΣR = sum(R)");
  builder.step("share of the layers' resistance inside of it, at most 20 % (DIN 4108-3:2018, 5.3, from memory)", "p_R",
               100.0 * share, "%", "p_R = R_i / ΣR");
  if (share <= kGreatestShareInside) return;
  builder.note("More than 20 % of the resistance lies inside of the vapour control layer, which is then cold.");
}

std::string where_most(const VapourBuildUp& build_up, const GlaserYear& year) {
  const auto most = std::max_element(year.greatest_kg_per_m2.begin(), year.greatest_kg_per_m2.end());
  return plane_name(build_up, static_cast<std::size_t>(most - year.greatest_kg_per_m2.begin()));
}

void add_punctured(const AssessedSection& section, std::size_t control, const Settings& settings,
                   FindingBuilder& builder) {
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
  const double whole_sd_m = section.build_up.layers[control].sd_m;
  if (*sd_m >= whole_sd_m) {
    builder.missing("setting 'thermal.punctured_vapour_control_sd_m' is " + fixed_text(*sd_m, 2) +
                    " m, not below the " + fixed_text(whole_sd_m, 2) +
                    " m that the vapour control layer has when whole: one of them is wrong");
    return;
  }
  VapourBuildUp whole = section.build_up;
  whole.layers[control].sd_m = *sd_m;
  const VapourBuildUp fine = subdivided(whole);
  const GlaserYear year = assess_year(fine, section.climate);
  builder.step_text("if the vapour control layer is punctured", outcome(year));
  builder.step("most condensate then, all planes together", "M_a,max,p", year.greatest_total_kg_per_m2, "kg/m²");
  builder.step("condensate then left after twelve months", "M_a,12,p", year.months.back().total_kg_per_m2(), "kg/m²");
  const std::string lead = "If the vapour control layer is punctured, so that its s_d falls from " +
                           fixed_text(whole_sd_m, 2) + " m to " + fixed_text(*sd_m, 2) + " m, " + outcome(year);
  const auto say = [&builder](const std::string& text) { builder.note(text).value_text("punctured", text); };
  if (!year.condenses) {
    say(lead + ".");
    return;
  }
  say(lead + ": the most condensate goes from " + fixed_text(section.year.greatest_total_kg_per_m2, 3) + " to " +
      fixed_text(year.greatest_total_kg_per_m2, 3) + " kg/m², most of it " + where_most(fine, year) +
      ". Repair every puncture before the lining closes it in.");
}

}  // namespace

std::size_t main_insulation_layer(const BridgedLayers& bridged) {
  const auto most = std::max_element(bridged.layers.begin(), bridged.layers.end(), [](const auto& a, const auto& b) {
    return a.slots.front().resistance_m2k_per_w < b.slots.front().resistance_m2k_per_w;
  });
  return static_cast<std::size_t>(most - bridged.layers.begin());
}

std::optional<VapourBuildUp> vapour_build_up(const BuildUp& build_up, const SectionArea& section,
                                             const Project& project, FindingBuilder& builder) {
  VapourBuildUp result;
  result.r_si_m2k_per_w = build_up.r_si_m2k_per_w;
  result.r_se_m2k_per_w = build_up.r_se_m2k_per_w;
  const auto& layers = build_up.bridged.layers;
  const std::size_t insulation = main_insulation_layer(build_up.bridged);
  for (std::size_t i = 0; i < layers.size(); ++i) {
    const LayerSlot& slot = layers[i].slots[section.slots[i]];
    double sd_m = kAirLayer_sd_m;
    if (!slot.is_air) {
      const auto factor = vapour_resistance_factor(slot, i <= insulation, project, builder);
      if (!factor) continue;
      sd_m = *factor * layers[i].thickness_m;
    }
    result.layers.push_back({layers[i].name, slot.resistance_m2k_per_w, sd_m, layers[i].thickness_m});
  }
  return result.layers.size() == layers.size() ? std::optional(std::move(result)) : std::nullopt;
}

std::optional<std::size_t> vapour_control_layer(const Panel& panel, const BridgedLayers& bridged,
                                                const VapourBuildUp& build_up) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < main_insulation_layer(bridged); ++i) {
    if (!is_membrane(panel.layers[bridged.layers[i].panel_layer])) continue;
    if (!found || build_up.layers[i].sd_m > build_up.layers[*found].sd_m) found = i;
  }
  return found;
}

void add_vapour_control(const AssessedSection& section, const Settings& settings, FindingBuilder& builder) {
  const std::size_t insulation = main_insulation_layer(section.bridged);
  add_both_sides(section, insulation, builder);
  add_tightest(section, insulation, builder);
  const auto control = vapour_control_layer(section.panel, section.bridged, section.build_up);
  if (!control) {
    builder.note("No membrane stands on the warm side of the main insulation: the panel has no vapour control layer.");
    return;
  }
  add_position(section, *control, builder);
  add_punctured(section, *control, settings, builder);
}

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
  return resting_on(std::move(inputs), transmittance_inputs());
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
  } else if (year.condenses && !limit) {
    finding.verdict = Verdict::not_assessed;
    finding.reason = "up to " + fixed_text(held, 3) +
                     " kg/m² condenses and dries again, and setting 'thermal.condensate_limit' does not name how much "
                     "the layers may hold";
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
    .inputs = with_model(interstitial_inputs()),
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
