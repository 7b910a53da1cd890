#include "plugins/fire/calculation/load_in_fire.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/api/support/take_off.h"
#include "core/api/support/units.h"

namespace panel_dossier::fire {

namespace {

/// Row of load_factors.csv.
struct LoadFactors {
  Sourced<double> permanent;  ///< γG,sup
  Sourced<double> variable;   ///< γQ
  double wind = 0.0;          ///< ψ of wind in fire
};

std::optional<LoadFactors> factors_of(const Tables& tables, const std::string& annex) {
  const auto permanent = tables.load_factors.number(annex, "gamma_g_unfavourable");
  const auto variable = tables.load_factors.number(annex, "gamma_q");
  const auto wind = tables.load_factors.number(annex, "wind_in_fire");
  if (!permanent || !variable || !wind) return std::nullopt;
  return LoadFactors{*permanent, *variable, wind->value};
}

void note_wind(FindingBuilder& builder, const std::string& annex, const LoadFactors& factors) {
  const std::string by = " by the national annex '" + annex + "' (" + factors.permanent.origin.source + ").";
  if (factors.wind == 0.0) {
    builder.note("Wind is not combined with fire: ψ_2 = 0" + by);
  } else {
    builder.note("Wind acts with fire at ψ_1 > 0" + by +
                 " The calculation leaves its bending out, so its utilisation is too low where wind bends the studs.");
  }
}

/// Share of the panel's weight above the middle of its lowest span: it stands on its foot.
double self_weight_share(const Panel& panel, const Settings& settings) {
  auto spacing_m = panel.properties.number("Panel_Structure", "SupportSpacing");
  if (!spacing_m) spacing_m = settings.number("structural.support_spacing_m");
  const double height_m = panel.height_m.value;
  return 1.0 - std::min(spacing_m ? spacing_m->value : height_m, height_m) / (2.0 * height_m);
}

std::optional<double> refused(FindingBuilder& builder, const std::string& why) {
  builder.step_text("load in fire: not calculated", why);
  return std::nullopt;
}

}  // namespace

std::optional<double> load_in_fire_n_per_m(FindingBuilder& builder, const Panel& panel, const Project& project,
                                           const Settings& settings, const Tables& tables) {
  const auto ratio = settings.number("fire.load_ratio_in_fire");
  const auto permanent = panel.properties.number("Panel_Structure", "PermanentLineLoad");
  const auto variable = panel.properties.number("Panel_Structure", "VariableLineLoad");
  const auto mass_kg = take_off(panel, project).mass_kg();
  if (!ratio || !permanent || !variable || !mass_kg) {
    return refused(builder,
                   "needs setting fire.load_ratio_in_fire, Panel_Structure.PermanentLineLoad and VariableLineLoad, "
                   "and the density of every part");
  }
  builder.number("load in fire over design load", "η_fi", "", ratio, {});
  builder.number("characteristic permanent load on the head", "G_k", "N/m", permanent, {});
  builder.number("characteristic variable load on the head", "Q_k", "N/m", variable, {});
  if (!(ratio->value > 0.0 && ratio->value <= 1.0)) {
    return refused(builder, "setting fire.load_ratio_in_fire must be above 0 and at most 1");
  }
  if (!(permanent->value >= 0.0) || !(variable->value >= 0.0)) {
    return refused(builder, "Panel_Structure.PermanentLineLoad and VariableLineLoad must not be negative");
  }
  const auto annex = settings.text("structural.national_annex");
  if (!annex) return refused(builder, "needs setting structural.national_annex");
  const auto factors = factors_of(tables, annex->value);
  if (!factors) return refused(builder, "load_factors.csv has no row for the national annex '" + annex->value + "'");
  builder.text("national annex", annex, {});
  builder.number("partial factor of permanent actions", "γ_G", "", factors->permanent, {});
  builder.number("partial factor of variable actions", "γ_Q", "", factors->variable, {});
  note_wind(builder, annex->value, *factors);
  const double share = self_weight_share(panel, settings);
  const double self_weight_n_per_m = share * *mass_kg * units::kStandardGravity_m_per_s2 / panel.width_m.value;
  const double design_n_per_m =
      factors->permanent.value * (permanent->value + self_weight_n_per_m) + factors->variable.value * variable->value;
  builder.step("share of the panel above the middle of its lowest span", "ρ_g", share, "", "ρ_g = 1 − l_s / (2 · H)")
      .step("self-weight of that share", "g", self_weight_n_per_m / 1e3, "kN/m", "g = ρ_g · m · 9.80665 m/s² / B")
      .step("design load at normal temperature", "n_d", design_n_per_m / 1e3, "kN/m",
            "n_d = γ_G · (G_k + g) + γ_Q · Q_k")
      .step("design load in fire, 2.4.2", "n_d,fi", ratio->value * design_n_per_m / 1e3, "kN/m", "n_d,fi = η_fi · n_d");
  return ratio->value * design_n_per_m;
}

}  // namespace panel_dossier::fire
