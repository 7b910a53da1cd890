#include "plugins/fire/load_in_fire.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/api/take_off.h"
#include "core/api/units.h"

namespace panel_dossier::fire {

namespace {

constexpr double kPermanentFactor = 1.35;  ///< γG,sup, EN 1990:2002 table A1.2(B), recommended value
constexpr double kVariableFactor = 1.5;    ///< γQ, likewise

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
                                           const Settings& settings) {
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
  const double share = self_weight_share(panel, settings);
  const double self_weight_n_per_m = share * *mass_kg * units::kStandardGravity_m_per_s2 / panel.width_m.value;
  const double design_n_per_m =
      kPermanentFactor * (permanent->value + self_weight_n_per_m) + kVariableFactor * variable->value;
  builder.step("share of the panel above the middle of its lowest span", "ρ_g", share, "", "ρ_g = 1 − l_s / (2 · H)")
      .step("self-weight of that share", "g", self_weight_n_per_m / 1e3, "kN/m", "g = ρ_g · m · 9.80665 m/s² / B")
      .step("design load at normal temperature", "n_d", design_n_per_m / 1e3, "kN/m",
            "n_d = 1.35 · (G_k + g) + 1.5 · Q_k")
      .step("design load in fire, 2.4.2", "n_d,fi", ratio->value * design_n_per_m / 1e3, "kN/m", "n_d,fi = η_fi · n_d");
  return ratio->value * design_n_per_m;
}

}  // namespace panel_dossier::fire
