#include "plugins/fire/calculation/load_in_fire.h"

#include <algorithm>

#include "core/api/support/take_off.h"
#include "core/api/support/units.h"

namespace panel_dossier::fire {

namespace {

constexpr double kShareWithoutSupports = 0.5;  // above the middle of its height

std::optional<LoadFactors> factors_of(const Tables& tables, const Sourced<std::string>& annex) {
  const auto permanent = tables.load_factors.number(annex.value, "gamma_g_unfavourable");
  const auto variable = tables.load_factors.number(annex.value, "gamma_q");
  const auto wind = tables.load_factors.number(annex.value, "wind_in_fire");
  if (!permanent || !variable || !wind) return std::nullopt;
  return LoadFactors{annex, *permanent, *variable, wind->value};
}

/// What stands in the way of a load, or empty.
std::string refusal_of(const LoadInFire& load) {
  if (!(load.ratio->value > 0.0 && load.ratio->value <= 1.0)) {
    return "setting fire.load_ratio_in_fire must be above 0 and at most 1";
  }
  if (!(load.permanent_n_per_m->value >= 0.0) || !(load.variable_n_per_m->value >= 0.0)) {
    return "Panel_Structure.PermanentLineLoad and VariableLineLoad must not be negative";
  }
  return {};
}

/// A load in N/m or N as it is printed, in kN.
Sourced<double> in_kilonewtons(const std::optional<Sourced<double>>& load) {
  return {load->value / units::kNewtonPerKilonewton, load->origin};
}

void note_wind(FindingBuilder& builder, const LoadFactors& factors) {
  const std::string by =
      " by the national annex '" + factors.annex.value + "' (" + factors.permanent.origin.source + ").";
  if (factors.wind == 0.0) {
    builder.note("Wind is not combined with fire: ψ_2 = 0" + by);
  } else {
    builder.note("Wind acts with fire at ψ_1 > 0" + by +
                 " The calculation leaves its bending out, so its utilisation is too low where wind bends the studs.");
  }
}

}  // namespace

LoadInFire load_in_fire(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables) {
  LoadInFire load;
  const auto mass_kg = take_off(panel, project).mass_kg();
  const auto ratio = settings.number("fire.load_ratio_in_fire");
  const auto permanent = panel.properties.number("Panel_Structure", "PermanentLineLoad");
  const auto variable = panel.properties.number("Panel_Structure", "VariableLineLoad");
  if (!ratio || !permanent || !variable || !mass_kg) {
    load.missing =
        "needs setting fire.load_ratio_in_fire, Panel_Structure.PermanentLineLoad and VariableLineLoad, "
        "and the density of every part";
    return load;
  }
  load.ratio = ratio;
  load.permanent_n_per_m = permanent;
  load.variable_n_per_m = variable;
  load.missing = refusal_of(load);
  if (!load.missing.empty()) return load;
  const auto annex = settings.text("structural.national_annex");
  if (annex) load.factors = factors_of(tables, *annex);
  if (!load.factors) {
    load.missing = annex ? "load_factors.csv has no row for the national annex '" + annex->value + "'"
                         : std::string("needs setting structural.national_annex");
    return load;
  }
  load.support_spacing_m = panel.properties.number("Panel_Structure", "SupportSpacing");
  if (!load.support_spacing_m) load.support_spacing_m = settings.number("structural.support_spacing_m");
  const double height_m = panel.height_m.value;
  load.mass_kg = *mass_kg;
  load.span_m = std::min(load.support_spacing_m ? load.support_spacing_m->value : height_m, height_m);
  load.share = 1.0 - load.span_m / (2.0 * height_m);
  load.self_weight_n_per_m = load.share * load.mass_kg * units::kStandardGravity_m_per_s2 / panel.width_m.value;
  load.design_n_per_m = load.factors->permanent.value * (permanent->value + load.self_weight_n_per_m) +
                        load.factors->variable.value * variable->value;
  load.in_fire_n_per_m = ratio->value * load.design_n_per_m;
  return load;
}

std::vector<CheckInput> load_in_fire_inputs() {
  return {data_table("load_factors.csv"), optional_property("Panel_Structure.SupportSpacing"),
          optional_setting("fire.load_ratio_in_fire"), optional_setting("structural.national_annex"),
          optional_setting("structural.support_spacing_m")};
}

void add_load_steps(FindingBuilder& builder, const LoadInFire& load) {
  if (load.ratio) {
    builder.number("load in fire over design load", "η_fi", "", load.ratio, {});
    builder.number("characteristic permanent load on the head", "G_k", "kN/m", in_kilonewtons(load.permanent_n_per_m),
                   {});
    builder.number("characteristic variable load on the head", "Q_k", "kN/m", in_kilonewtons(load.variable_n_per_m),
                   {});
  }
  if (!load.missing.empty()) {
    builder.step_text("load in fire: not calculated", load.missing);
    return;
  }
  builder.text("national annex", load.factors->annex, {});
  builder.number("partial factor of permanent actions", "γ_G", "", load.factors->permanent, {});
  builder.number("partial factor of variable actions", "γ_Q", "", load.factors->variable, {});
  const bool stated = load.support_spacing_m.has_value();
  const bool supported = load.share > kShareWithoutSupports;
  if (stated) builder.number("largest spacing of the supports of a stud", "l_sup", "m", load.support_spacing_m, {});
  note_wind(builder, *load.factors);
  builder.step("span of the studs", "l_s", load.span_m, "m", stated ? "l_s = min(l_sup; H)" : "l_s = H")
      .step(supported ? "share of the panel above the middle of its lowest span"
                      : "share of the panel above the middle of its height, all of which the studs span",
            "ρ_g", load.share, "", supported ? "ρ_g = 1 − l_s / (2 · H)" : "ρ_g = 1 / 2")
      .step("mass of the panel, all its parts", "m", load.mass_kg, "kg")
      .step("self-weight of that share", "g", load.self_weight_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            "g = ρ_g · m · 9.80665 / (1000 · B)")
      .step("design load at normal temperature", "n_d", load.design_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            "n_d = γ_G · (G_k + g) + γ_Q · Q_k")
      .step("design load in fire, 2.4.2", "n_d,fi", load.in_fire_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            "n_d,fi = η_fi · n_d");
}

}  // namespace panel_dossier::fire
