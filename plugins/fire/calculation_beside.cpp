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
  for (const Column& column : {Column{"b_t", "m"}, {"k_c,fi", ""}, {"N_fi,Rd", "kN"}}) table.columns.push_back(column);
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
    table.rows.back().emplace_back(stud.tributary_width_m);
    table.rows.back().emplace_back(stud.buckling_factor);
    table.rows.back().emplace_back(stud.resistance_n / 1e3);
  }
}

/// Share of the panel's weight above the middle of its lowest span: it stands on its foot.
double self_weight_share(const Panel& panel, const Settings& settings) {
  auto spacing_m = panel.properties.number("Panel_Structure", "SupportSpacing");
  if (!spacing_m) spacing_m = settings.number("structural.support_spacing_m");
  const double height_m = panel.height_m.value;
  return 1.0 - std::min(spacing_m ? spacing_m->value : height_m, height_m) / (2.0 * height_m);
}

/// Design load in fire on each metre of the panel in N/m; none, with a step that says why, when something is missing.
std::optional<double> load_in_fire_n_per_m(FindingBuilder& builder, const Panel& panel, const Project& project,
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

/// The member with the least resistance for each metre of wall that it carries.
struct GoverningStud {
  RemainingStud stud;
  StudCharring charring;

  double resistance_n_per_m() const { return stud.resistance_n / stud.tributary_width_m; }
};

void keep_governing(std::optional<GoverningStud>& governing, const StudsInFire& studs) {
  for (const RemainingStud& stud : studs.studs) {
    if (stud.tributary_width_m <= 0.0) continue;
    const GoverningStud candidate{stud, studs.charring};
    if (!governing || candidate.resistance_n_per_m() < governing->resistance_n_per_m()) governing = candidate;
  }
}

void add_governing(FindingBuilder& builder, const GoverningStud& governing, std::optional<double> load_n_per_m) {
  const RemainingStud& stud = governing.stud;
  builder.step_text("governing member", stud.name + ", fire " + face(governing.charring.fire_inside))
      .step_text("buckling along the wall", governing.charring.restrained_along_wall
                                                ? "prevented by the wood panel on the side away from the fire"
                                                : "not prevented: the board away from the fire is gypsum")
      .step("width of wall carried", "b_t", stud.tributary_width_m, "m",
            "b_t = s_l / 2 + s_r / 2; at an edge the whole distance to it")
      .step("buckling factor", "k_c,fi", stud.buckling_factor, "",
            "the smaller of k_c,y and, where not prevented, k_c,z")
      .step("calculated resistance, 4.2.2", "N_fi,Rd", stud.resistance_n / 1e3, "kN",
            "N_fi,Rd = k_c,fi · k_fi · f_c,0,k · b · h");
  if (!load_n_per_m) return;
  const double load_n = *load_n_per_m * stud.tributary_width_m;
  builder.step("design load in fire of the member", "N_d,fi", load_n / 1e3, "kN", "N_d,fi = n_d,fi · b_t");
  if (stud.resistance_n > 0.0) {
    builder.step("calculated utilisation in fire", "η", load_n / stud.resistance_n, "", "η = N_d,fi / N_fi,Rd");
  } else {
    builder.step_text("calculated utilisation in fire",
                      "no section remains: the member carries nothing by calculation");
  }
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
  std::optional<GoverningStud> governing;
  for (const bool fire_inside : {true, false}) {
    const StudsInFire studs = studs_in_fire(panel, project, cassette, tables, time_min, fire_inside, load_bearing);
    if (!studs.missing.empty()) {
      builder.step_text(kNotCalculated, joined(studs.missing));
      return;
    }
    add_charring_steps(builder, studs);
    add_rows(table, studs, load_bearing);
    keep_governing(governing, studs);
  }
  builder.table(std::move(table))
      .note(
          "The board on the fire's side is taken to fall off when charring starts behind it (t_f = t_ch); type F "
          "boards "
          "stay longer, which only a test can show. Studs char on the narrow face alone where stone wool fills the "
          "cavity, else on three faces; annex C is not applied.");
  note_scope(builder, cassette);
  if (!load_bearing) return;
  const auto load_n_per_m = load_in_fire_n_per_m(builder, panel, project, settings);
  if (governing) add_governing(builder, *governing, load_n_per_m);
  builder.note(
      "Each member carries its own width of wall; short members are not counted. Buckling along the wall is taken as "
      "prevented only by a wood panel on the side away from the fire, never by gypsum or noggings. Wind is not "
      "combined "
      "with fire (ψ_2 = 0).");
}

}  // namespace panel_dossier::fire
