#include "plugins/fire/calculation_beside.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/api/take_off.h"
#include "core/api/units.h"
#include "plugins/fire/separating_function.h"
#include "plugins/fire/stud_in_fire.h"

namespace panel_dossier::fire {

namespace {

constexpr const char* kNotCalculated = "calculation beside the evidence: not made";
constexpr double kPermanentFactor = 1.35;  ///< γG,sup, EN 1990:2002 table A1.2(B), recommended value
constexpr double kVariableFactor = 1.5;    ///< γQ, likewise

std::string joined(const std::vector<std::string>& texts) {
  std::string all;
  for (const std::string& text : texts) {
    if (!all.empty()) all += "; ";
    all += text;
  }
  return all;
}

const char* face(bool fire_inside) {
  return fire_inside ? "inside" : "outside";
}

void note_scope(FindingBuilder& builder, const Cassette& cassette) {
  builder.note(
      "The calculation is for the bare cassette: framing, cavity filling and the board on either face. It stands "
      "beside the evidence and never outranks it." +
      (cassette.not_counted.empty() ? std::string() : " Not counted: " + joined(cassette.not_counted) + "."));
  if (cassette.filling && cassette.filling->type_assumed) {
    builder.note(
        "The export says mineral wool without its kind (Panel_Fire.InsulationType); the calculation takes it as "
        "glass wool, the weaker of the two.");
  }
}

/// Input rows of the layers' data; the same for either direction.
void add_layer_inputs(FindingBuilder& builder, const Panel& panel, const SeparatingFunction& function) {
  for (const LayerContribution& part : function.layers) {
    const auto layer = std::find_if(panel.layers.begin(), panel.layers.end(),
                                    [&](const Layer& candidate) { return candidate.name == part.name; });
    if (layer == panel.layers.end()) continue;
    builder.number("thickness of '" + part.name + "'", "h", "mm",
                   Sourced<double>{part.thickness_mm, layer->thickness_m.origin}, {});
    builder.number("basic insulation value of '" + part.name + "'", "t_ins,0", "min",
                   Sourced<double>{part.basic_min, part.origin}, {});
  }
}

void add_direction(FindingBuilder& builder, Table& table, const SeparatingFunction& function, bool fire_inside) {
  for (const LayerContribution& layer : function.layers) {
    table.rows.push_back({std::string(face(fire_inside)), layer.name, layer.thickness_mm, layer.basic_min,
                          layer.position_factor, layer.joint_factor, layer.minutes()});
  }
  builder.step(std::string("calculated insulation time, fire ") + face(fire_inside), "t_ins",
               function.insulation_time_min(), "min", "t_ins = Σ t_ins,0 · k_pos · k_j");
}

/// Resistances are columns only where they are calculated: for a load-bearing panel.
Table charring_table(bool with_resistance) {
  Table table{
      "Studs in fire, EN 1995-1-2:2004 3.4 and 4.2.2",
      {{"fire", ""}, {"member", ""}, {"b", "mm"}, {"h", "mm"}, {"d_ef", "mm"}, {"b left", "mm"}, {"h left", "mm"}},
      {}};
  if (!with_resistance) return table;
  table.columns.push_back({"k_c,fi", ""});
  table.columns.push_back({"N_fi,Rd", "kN"});
  return table;
}

void add_charring_steps(FindingBuilder& builder, const StudsInFire& studs) {
  const StudCharring& c = studs.charring;
  const std::string side = std::string(", fire ") + face(c.fire_inside);
  builder
      .step("start of charring behind the board" + side, "t_ch", c.charring_start_min, "min",
            "gypsum: 2.8 · h_p − 14; wood panel: h_p / (β_0 · k_ρ · k_h)")
      .step("notional char depth" + side, "d_char,n", c.char_depth_mm, "mm",
            "2 · β_n after t_ch until 25 mm or 2 · t_ch, then β_n")
      .step("factor of the zero-strength layer" + side, "k_0", c.zero_strength_factor, "", "t / max(20 min; t_ch) ≤ 1")
      .step("effective char depth" + side, "d_ef", c.effective_depth_mm, "mm", "d_ef = d_char,n + k_0 · 7 mm");
}

void add_rows(Table& table, const StudsInFire& studs, bool with_resistance) {
  for (const RemainingStud& stud : studs.studs) {
    table.rows.push_back({std::string(face(studs.charring.fire_inside)), stud.name, stud.width_mm, stud.depth_mm,
                          studs.charring.effective_depth_mm, stud.remaining_width_mm, stud.remaining_depth_mm});
    if (!with_resistance) continue;
    table.rows.back().emplace_back(stud.buckling_factor);
    table.rows.back().emplace_back(stud.resistance_n / 1e3);
  }
}

/// Design load in fire of the whole panel in N; none, with a step that says why, when something is missing.
std::optional<double> load_in_fire_n(FindingBuilder& builder, const Panel& panel, const Project& project,
                                     const Settings& settings) {
  const auto ratio = settings.number("fire.load_ratio_in_fire");
  const auto permanent = panel.properties.number("Panel_Structure", "PermanentLineLoad");
  const auto variable = panel.properties.number("Panel_Structure", "VariableLineLoad");
  const auto mass_kg = take_off(panel, project).mass_kg();
  if (!ratio || !permanent || !variable || !mass_kg) {
    builder.step_text("load in fire: not calculated",
                      "needs setting fire.load_ratio_in_fire, Panel_Structure.PermanentLineLoad and VariableLineLoad, "
                      "and the density of every part");
    return std::nullopt;
  }
  builder.number("load in fire over design load", "η_fi", "", ratio, {});
  builder.number("characteristic permanent load on the head", "G_k", "N/m", permanent, {});
  builder.number("characteristic variable load on the head", "Q_k", "N/m", variable, {});
  const double self_weight_n = 0.5 * *mass_kg * units::kStandardGravity_m_per_s2;
  const double design_n = kPermanentFactor * (permanent->value * panel.width_m.value + self_weight_n) +
                          kVariableFactor * variable->value * panel.width_m.value;
  builder.step("self-weight above mid-height", "G_0", self_weight_n / 1e3, "kN", "G_0 = 0.5 · m · 9.80665 m/s²")
      .step("design load at normal temperature", "N_d", design_n / 1e3, "kN",
            "N_d = 1.35 · (G_k · B + G_0) + 1.5 · Q_k · B")
      .step("design load in fire, 2.4.2", "N_d,fi", ratio->value * design_n / 1e3, "kN", "N_d,fi = η_fi · N_d");
  return ratio->value * design_n;
}

}  // namespace

void add_separating_function(FindingBuilder& builder, const Panel& panel, const Cassette& cassette,
                             const Tables& tables) {
  const SeparatingFunction inside = separating_function(cassette, panel, tables, true);
  const SeparatingFunction outside = separating_function(cassette, panel, tables, false);
  const auto& missing = inside.missing.empty() ? outside.missing : inside.missing;
  if (!missing.empty()) {
    builder.step_text(kNotCalculated, joined(missing));
    return;
  }
  add_layer_inputs(builder, panel, inside);
  Table table{
      "Separating function of the bare cassette, EN 1995-1-2:2004 annex E",
      {{"fire", ""}, {"layer", ""}, {"h", "mm"}, {"t_ins,0", "min"}, {"k_pos", ""}, {"k_j", ""}, {"t_ins", "min"}},
      {}};
  add_direction(builder, table, inside, true);
  add_direction(builder, table, outside, false);
  const double shorter_min = std::min(inside.insulation_time_min(), outside.insulation_time_min());
  builder
      .step("calculated insulation time of the cassette; annex E ends at 60 min", "t_ins",
            std::min(shorter_min, kAnnexELimit_min), "min", "the shorter of both, at most 60 min")
      .table(std::move(table))
      .note(
          "k_j = 1: joints of boards are taken to lie on framing or battens and the cavity filling to fit without gaps "
          "(E2.6). Integrity is taken as given by insulation with boards fixed as annex E and section 7 ask.");
  note_scope(builder, cassette);
}

void add_studs_in_fire(FindingBuilder& builder, const Panel& panel, const Project& project, const Settings& settings,
                       const Cassette& cassette, const Tables& tables, double time_min, bool load_bearing) {
  Table table = charring_table(load_bearing);
  double least_n = 0.0;
  for (const bool fire_inside : {true, false}) {
    const StudsInFire studs = studs_in_fire(panel, project, cassette, tables, time_min, fire_inside, load_bearing);
    if (!studs.missing.empty()) {
      builder.step_text(kNotCalculated, joined(studs.missing));
      return;
    }
    add_charring_steps(builder, studs);
    add_rows(table, studs, load_bearing);
    least_n = fire_inside ? studs.resistance_n() : std::min(least_n, studs.resistance_n());
  }
  builder.table(std::move(table))
      .note(
          "The board on the fire's side is taken to fall off when charring starts behind it (t_f = t_ch); type F "
          "boards "
          "stay longer, which only a test can show. Studs char on the narrow face alone where stone wool fills the "
          "cavity, else on three faces; annex C is not applied.");
  note_scope(builder, cassette);
  if (!load_bearing) return;
  const auto load_n = load_in_fire_n(builder, panel, project, settings);
  builder.step("calculated resistance of all studs over the full length, 4.2.2", "N_fi,Rd", least_n / 1e3, "kN",
               "N_fi,Rd = Σ k_c,fi · k_fi · f_c,0,k · b · h");
  if (load_n && least_n > 0.0) {
    builder.step("calculated utilisation in fire", "η", *load_n / least_n, "", "η = N_d,fi / N_fi,Rd");
  } else if (load_n) {
    builder.step_text("calculated utilisation in fire", "no section remains: the studs carry nothing by calculation");
  }
  builder.note(
      "Studs share the load of the panel evenly; buckling along the wall is taken as prevented by the board on "
      "the side away from the fire. Wind is not combined with fire (ψ_2 = 0).");
}

}  // namespace panel_dossier::fire
