#include "plugins/fire/calculation/stud_steps.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <utility>

#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/fire/calculation/load_in_fire.h"
#include "plugins/fire/calculation/stud_in_fire.h"

namespace panel_dossier::fire {

namespace {

/// `text` with each `@` as the side of the fire: `t_ch@` as `t_ch,in`.
std::string sided(std::string_view text, bool fire_inside) {
  std::string result;
  for (const char c : text) {
    if (c == '@') {
      result += fire_inside ? ",in" : ",out";
    } else {
      result += c;
    }
  }
  return result;
}

/// The steps for fire on one side. Symbols of that side are written with `@`.
class SideSteps {
 public:
  SideSteps(FindingBuilder& builder, const StudCharring& charring, const CassetteBoard& board)
      : builder_(builder), c_(charring), board_(board), side_(std::string(", fire ") + face(charring.fire_inside)) {}

  /// The board's data as inputs, then tch, the member's rate and tf.
  void add_board(const Panel& panel, const Tables& tables) {
    const Layer& layer = panel.layers[board_.layer];
    number("thickness of '" + layer.name + "'", "h_p@", "mm",
           Sourced<double>{board_.thickness_mm, layer.thickness_m.origin});
    if (is_wood_panel(board_, tables)) {
      add_wood_panel(tables);
    } else if (board_.joints.open()) {
      step("start of charring behind the board", "(3.12)", "t_ch@", c_.board.start_min, "min",
           "max(0; 2.8 · h_p@ − 23)");
    } else {
      step("start of charring behind the board", "(3.11)", "t_ch@", c_.board.start_min, "min",
           "max(0; 2.8 · h_p@ − 14)");
    }
    if (board_.tested_failure_min) {
      number("tested time to fall-off of the board", "t_test@", "min", *board_.tested_failure_min);
    }
    if (board_.fixings.shortest_m) {
      const Sourced<double>& shortest = *board_.fixings.shortest_m;
      number("shortest fastener of the board", "l_f@", "mm",
             Sourced<double>{units::millimetres_from_metres(shortest.value), shortest.origin});
    }
    add_rate();
    if (c_.board.pull_out_min) {
      add_pull_out();
    } else {
      step("fall-off of the board", "", "t_f@", c_.board.fall_off_min, "min", "t_ch@");
    }
  }

  /// Rates and depths of the members; for those that have failed the word alone.
  void add_member() {
    if (c_.failed) {
      builder_.step_text("members" + side_, "fail at t_f: glass wool does not protect them then (annex C)");
      return;
    }
    if (three_faces()) {
      add_three_faces();
    } else {
      add_narrow_face();
    }
    step("factor of the zero-strength layer", "", "k_0@", c_.zero_strength_factor, "", "min(1; t / max(20; t_ch@))");
    step("effective char depth", "", "d_ef@", c_.effective_depth_mm, "mm", "d_char,n@ + k_0@ · 7");
  }

  /// (3.16): a board stays until tf only if its fasteners reach 10 mm into unburnt timber then.
  void add_fasteners() {
    step("char depth when the board falls off", "", "d_char,0@", c_.fall_off_depth_mm, "mm",
         slow_phase() ? "β_s@ · (t_f@ − t_ch@)" : "");
    step("fastener length asked for at fall-off", "3.4.3.4", "l_f,req@", c_.required_fastener_mm, "mm",
         "h_p@ + d_char,0@ + 10");
    if (!board_.fixings.shortest_m) {
      builder_.step_text("fasteners of the board" + side_, "length not given (Panel_Fastener.Length)");
      return;
    }
    const double length_mm = units::millimetres_from_metres(board_.fixings.shortest_m->value);
    builder_.step_text("fasteners of the board" + side_, length_mm >= c_.required_fastener_mm
                                                             ? "long enough"
                                                             : "too short: the board falls off before t_f");
  }

 private:
  FindingBuilder& builder_;
  const StudCharring& c_;
  const CassetteBoard& board_;
  std::string side_;

  bool three_faces() const { return c_.rule == CharringRule::three_faces; }
  /// Timber chars behind the board before it falls off.
  bool slow_phase() const { return c_.phases.fall_off_min > c_.phases.start_min; }

  void number(const std::string& name, const char* symbol, const char* unit, const Sourced<double>& value) {
    builder_.number(name + side_, sided(symbol, c_.fire_inside), unit, value, {});
  }

  /// `by` names the clause, `expression` what the symbol equals; either may be empty.
  void step(const char* name, const char* by, const char* symbol, double value, const char* unit,
            std::string_view expression = {}) {
    const std::string formula =
        expression.empty() ? std::string() : std::string(symbol) + " = " + std::string(expression);
    builder_.step(name + side_ + (*by == 0 ? "" : std::string(", ") + by), sided(symbol, c_.fire_inside), value, unit,
                  sided(formula, c_.fire_inside));
  }

  void add_wood_panel(const Tables& tables) {
    const Sourced<double>& density = board_.characteristic_density_kg_per_m3;
    number("charring rate of the board", "β_0,p@", "mm/min", *tables.boards.number(board_.key, "charring_mm_per_min"));
    number("characteristic density of the board", "ρ_k@", "kg/m³", density);
    step("density factor of the board", "", "k_ρ@", density_factor(density.value), "", "√(450 / ρ_k@)");
    step("thickness factor of the board", "", "k_h@", thickness_factor(board_.thickness_mm), "",
         "max(1; √(20 / h_p@))");
    if (c_.board.early) {
      step("start of charring behind the board", "annexes C and D", "t_ch@", c_.board.start_min, "min",
           "max(0; h_p@ / (β_0,p@ · k_ρ@ · k_h@) − 4)");
    } else {
      step("start of charring behind the board", "(3.10)", "t_ch@", c_.board.start_min, "min",
           "h_p@ / (β_0,p@ · k_ρ@ · k_h@)");
    }
  }

  void add_rate() {
    step("charring rate of the member", "table 3.1", three_faces() ? "β_n@" : "β_0@", c_.rate_mm_per_min, "mm/min");
    if (!three_faces()) {
      step("factor of the stud's width", "table C1, linear between its rows", "k_s@", c_.section_factor, "");
    }
  }

  void add_pull_out() {
    step("shortest fastener that holds the board before the timber chars", "(3.16)", "l_0@",
         required_fastener_length_mm(board_.thickness_mm, 0.0), "mm", "h_p@ + 10");
    step("charring rate at the fasteners", three_faces() ? "(3.7)" : "(C.9), a joint over the stud", "β_j@",
         c_.pull_out_rate_mm_per_min, "mm/min",
         three_faces() ? "(1 − 0.018 · h_p@) · β_n@" : "k_s@ · 1.5 · (1.05 − 0.0073 · h_p@) · 1.15 · β_0@");
    step("pull-out of the fasteners", "(C.9)", "t_po@", *c_.board.pull_out_min, "min",
         "t_ch@ + max(0; l_f@ − l_0@) / β_j@");
    step("fall-off of the board", "", "t_f@", c_.board.fall_off_min, "min", "max(t_ch@; min(t_test@; t_po@))");
  }

  /// Annex C: rates of the narrow face.
  void add_narrow_face() {
    if (slow_phase()) {
      step("rate before fall-off", "(C.1), (C.3)", "β_s@", c_.phases.slow_mm_per_min, "mm/min",
           "k_s@ · 1.5 · (1.05 − 0.0073 · h_p@) · β_0@");
    }
    step("rate after fall-off", "(C.2), (C.6)", "β_n@", c_.phases.fast_mm_per_min, "mm/min",
         "k_s@ · 1.5 · (1 + 0.036 · t_f@) · β_0@");
    step("notional char depth", "on the narrow face", "d_char,n@", c_.char_depth_mm, "mm",
         slow_phase() ? "β_s@ · max(0; min(t; t_f@) − t_ch@) + β_n@ · max(0; t − t_f@)" : "β_n@ · max(0; t − t_f@)");
  }

  void add_three_faces() {
    if (slow_phase()) {
      step("rate before fall-off", "(3.7)", "β_s@", c_.phases.slow_mm_per_min, "mm/min", "(1 − 0.018 · h_p@) · β_n@");
      step("end of fast charring", "(3.9)", "t_a@", c_.phases.plain_from_min, "min",
           "t_f@ + max(0; 25 − β_s@ · (t_f@ − t_ch@)) / (2 · β_n@)");
    } else {
      step("end of fast charring", "(3.8), (3.9)", "t_a@", c_.phases.plain_from_min, "min",
           "t_f@ + min(t_f@; 25 / (2 · β_n@))");
    }
    const std::string after = "2 · β_n@ · max(0; min(t; t_a@) − t_f@) + β_n@ · max(0; t − t_a@)";
    step("notional char depth", "on three faces", "d_char,n@", c_.char_depth_mm, "mm",
         slow_phase() ? "β_s@ · max(0; min(t; t_f@) − t_ch@) + " + after : after);
  }
};

/// Resistances are columns only where they are calculated: for a load-bearing panel.
Table charring_table(bool with_resistance) {
  Table table{"Studs in fire, EN 1995-1-2:2004 3.4 and 4.2.2",
              {{"fire", ""}, {"member", ""}, {"b × h", "mm"}, {"b left", "mm"}, {"h left", "mm"}},
              {}};
  if (!with_resistance) return table;
  for (const Column& column : {Column{"b_t", "m"}, {"k_c,fi", ""}, {"N_fi,Rd", "kN"}}) table.columns.push_back(column);
  return table;
}

void add_rows(Table& table, const StudsInFire& studs, bool with_resistance) {
  for (const RemainingStud& stud : studs.studs) {
    table.rows.push_back(
        {std::string(face(studs.charring.fire_inside)), stud.name,
         std::to_string(std::lround(stud.width_mm)) + " × " + std::to_string(std::lround(stud.depth_mm)),
         stud.remaining_width_mm, stud.remaining_depth_mm});
    if (!with_resistance) continue;
    table.rows.back().emplace_back(stud.tributary_width_m());
    table.rows.back().emplace_back(stud.buckling_factor);
    table.rows.back().emplace_back(stud.resistance_n / units::kNewtonPerKilonewton);
  }
}

enum Phase : std::size_t { kProtected, kSlow, kFast, kPlain, kFallen };

BarChart empty_timeline() {
  return {
      "Timeline in the standard fire, by the side of the fire",
      "time",
      "min",
      {"in place, no charring", "slow charring", "fast charring", "charring at the plain rate", "fallen off or failed"},
      {}};
}

/// Pieces without length are left out.
void add_piece(Bar& bar, Phase phase, double from_min, double to_min, double end_min) {
  const double to = std::min(to_min, end_min);
  if (to > from_min) bar.pieces.push_back({phase, from_min, to});
}

/// Names are short, for a chart stands in half a page's width; the steps name the board.
void add_bars(BarChart& chart, const StudCharring& c, double end_min) {
  constexpr double kOpenEnd = std::numeric_limits<double>::infinity();
  const CharringPhases& p = c.phases;
  const std::string side = std::string(face(c.fire_inside)) + ": ";
  Bar layer{side + "board", {}};
  add_piece(layer, kProtected, 0.0, p.fall_off_min, end_min);
  add_piece(layer, kFallen, p.fall_off_min, kOpenEnd, end_min);
  const bool has_plain = p.plain_from_min > p.fall_off_min || p.fast_mm_per_min > p.plain_mm_per_min;
  Bar stud{side + "studs", {}};
  add_piece(stud, kProtected, 0.0, p.start_min, end_min);
  add_piece(stud, kSlow, p.start_min, p.fall_off_min, end_min);
  if (c.rule == CharringRule::glass_wool) {
    add_piece(stud, kFallen, p.fall_off_min, kOpenEnd, end_min);
  } else if (has_plain) {
    add_piece(stud, kFast, p.fall_off_min, p.plain_from_min, end_min);
    add_piece(stud, kPlain, p.plain_from_min, kOpenEnd, end_min);
  } else {
    add_piece(stud, kFast, p.fall_off_min, kOpenEnd, end_min);
  }
  chart.bars.push_back(std::move(layer));
  chart.bars.push_back(std::move(stud));
}

/// The member with the least resistance for each metre of wall that it carries.
struct GoverningStud {
  RemainingStud stud;
  StudCharring charring;

  double resistance_n_per_m() const { return stud.resistance_n / stud.tributary_width_m(); }
};

void keep_governing(std::optional<GoverningStud>& governing, const StudsInFire& studs) {
  for (const RemainingStud& stud : studs.studs) {
    if (stud.tributary_width_m() <= 0.0) continue;
    const GoverningStud candidate{stud, studs.charring};
    if (!governing || candidate.resistance_n_per_m() < governing->resistance_n_per_m()) governing = candidate;
  }
}

void add_section(FindingBuilder& builder, const RemainingStud& stud, const StudCharring& charring) {
  const auto sized = [&](double value) { return Sourced<double>{value, stud.origin}; };
  builder.number("width of the governing member", "b", "mm", sized(stud.width_mm), {});
  builder.number("depth of the governing member", "h", "mm", sized(stud.depth_mm), {});
  builder.number("length of the governing member", "l", "m", sized(stud.length_m), {});
  if (charring.failed) {
    builder.step_text("section left", "nothing is counted: the member has failed");
    return;
  }
  const bool three_faces = charring.rule == CharringRule::three_faces;
  builder
      .step("width left", "b_fi", stud.remaining_width_mm, "mm",
            three_faces ? sided("b_fi = max(0; b − 2 · d_ef@)", charring.fire_inside) : "b_fi = b")
      .step("depth left", "h_fi", stud.remaining_depth_mm, "mm",
            sided("h_fi = max(0; h − d_ef@)", charring.fire_inside));
}

/// EN 1995-1-1 6.3.2 in one direction: `axis` is y for buckling through the wall, z along it; `size` the symbol of the
/// section's side in that direction.
void add_buckling(FindingBuilder& builder, const Buckling& buckling, const std::string& axis, const std::string& size) {
  const std::string where = axis == "y" ? " through the wall" : " along the wall";
  const std::string relative = "λ_rel," + axis;
  builder
      .step("slenderness" + where, "λ_" + axis, buckling.slenderness, "", "λ_" + axis + " = l / (" + size + " / √(12))")
      .step("relative slenderness" + where + ", EN 1995-1-1 (6.21)", relative, buckling.relative_slenderness, "",
            relative + " = λ_" + axis + " / π · √(f_c,0,k / E_0,05)");
  if (!buckling.k) {
    builder.step("buckling factor" + where + ": 1 up to a relative slenderness of 0.3", "k_c," + axis, buckling.factor,
                 "");
    return;
  }
  builder
      .step("instability" + where + ", EN 1995-1-1 (6.27)", "k_" + axis, *buckling.k, "",
            "k_" + axis + " = 0.5 · (1 + β_c · (" + relative + " − 0.3) + " + relative + "²)")
      .step("buckling factor" + where + ", EN 1995-1-1 (6.25)", "k_c," + axis, buckling.factor, "",
            "k_c," + axis + " = 1 / (k_" + axis + " + √(k_" + axis + "² − " + relative + "²))");
}

void add_resistance(FindingBuilder& builder, const RemainingStud& stud) {
  const double resistance_kn = stud.resistance_n / units::kNewtonPerKilonewton;
  if (!stud.across_wall) {
    builder.step("calculated resistance, 4.2.2: nothing of the member is left", "N_fi,Rd", resistance_kn, "kN");
    return;
  }
  const StrengthInFire& strength = *stud.strength;
  builder.number("compression strength along the grain", "f_c,0,k", "N/mm²", strength.compression_n_per_mm2, {});
  builder.number("fifth percentile modulus", "E_0,05", "N/mm²", strength.modulus_fifth_n_per_mm2, {});
  builder.number("factor to the 20 % fractile", "k_fi", "", strength.k_fi, {});
  builder.step("straightness factor, EN 1995-1-1 (6.29)", "β_c", strength.straightness_factor, "");
  add_buckling(builder, *stud.across_wall, "y", "h_fi");
  if (stud.along_wall) add_buckling(builder, *stud.along_wall, "z", "b_fi");
  builder
      .step("buckling factor", "k_c,fi", stud.buckling_factor, "",
            stud.along_wall ? "k_c,fi = min(k_c,y; k_c,z)" : "k_c,fi = k_c,y")
      .step("calculated resistance, 4.2.2", "N_fi,Rd", resistance_kn, "kN",
            "N_fi,Rd = k_c,fi · k_fi · f_c,0,k · b_fi · h_fi");
}

void add_governing(FindingBuilder& builder, const GoverningStud& governing, const LoadInFire& load) {
  const RemainingStud& stud = governing.stud;
  builder.step_text("governing member", stud.name + ", fire " + face(governing.charring.fire_inside))
      .step_text("buckling along the wall", governing.charring.restrained_along_wall
                                                ? "prevented by the wood panel on the side away from the fire"
                                                : "not prevented: no wood panel away from the fire with its sheets "
                                                  "and Panel_Fastener.Spacing in the export")
      .step("wall carried on the left: half the distance to the next member, at an edge the whole to it", "s_l",
            stud.carried_left_m, "m")
      .step("wall carried on the right, likewise", "s_r", stud.carried_right_m, "m")
      .step("width of wall carried", "b_t", stud.tributary_width_m(), "m", "b_t = s_l + s_r");
  add_section(builder, stud, governing.charring);
  add_resistance(builder, stud);
  if (!load.missing.empty()) return;
  const double load_n = load.in_fire_n_per_m * stud.tributary_width_m();
  builder.step("design load in fire of the member", "N_d,fi", load_n / units::kNewtonPerKilonewton, "kN",
               "N_d,fi = n_d,fi · b_t");
  if (stud.resistance_n > 0.0) {
    builder.step("calculated utilisation in fire", "η", load_n / stud.resistance_n, "", "η = N_d,fi / N_fi,Rd");
  } else {
    builder.step_text("calculated utilisation in fire", "nothing remains: the member carries nothing by calculation");
  }
}

const char* rule_text(CharringRule rule) {
  switch (rule) {
    case CharringRule::insulated_stud:
      return "Charring follows annex C: stone wool keeps the sides of the studs, and the narrow face chars.";
    case CharringRule::glass_wool: return "With glass wool a member fails when the board falls off (annex C).";
    case CharringRule::three_faces: break;
  }
  return "Beside a void (annex D) the studs char on three faces.";
}

void note_rules(FindingBuilder& builder, CharringRule rule) {
  builder.note(rule_text(rule))
      .note(
          "A gypsum board falls off when charring starts behind it; type F stays longer only where "
          "Panel_Fire.FailureTime gives its tested time and Panel_Fastener.Length its fasteners. A wood panel falls "
          "off when charred through "
          "(3.4.3), or 4 min before, as annexes C and D are recalled: the worse of both for the studs is taken.");
}

void note_resistance(FindingBuilder& builder, CharringRule rule) {
  if (rule == CharringRule::insulated_stud) {
    builder.note(
        "The reduced strength that annex C gives for studs in filled cavities (tables C2 and C3) is not applied: the "
        "resistance is that of the section left with d_0 = 7 mm, for information, and shows no class.");
  }
  builder.note(
      "Each member carries its own width of wall; short members are not counted. Buckling along the wall is prevented "
      "only by a wood panel away from the fire whose sheets and fasteners are in the export, never by gypsum or "
      "noggings.");
}

/// Both sides of the fire, inside first.
using BothSides = std::array<StudsInFire, 2>;

BothSides both_sides(const Panel& panel, const Project& project, const Cassette& cassette, const Tables& tables,
                     double time_min, bool load_bearing) {
  return {studs_in_fire(panel, project, cassette, tables, time_min, true, load_bearing),
          studs_in_fire(panel, project, cassette, tables, time_min, false, load_bearing)};
}

}  // namespace

std::vector<CheckInput> studs_in_fire_inputs() {
  std::vector<CheckInput> inputs = load_in_fire_inputs();
  for (CheckInput& input : std::vector<CheckInput>{
           data_table("charring_rates.csv"), data_table("stud_section.csv"), data_table("timber_in_fire.csv"),
           optional_property("Panel_Fire.CharringClass"), optional_property("Panel_Timber.StrengthClass"),
           optional_property("Pset_MaterialWood.StrengthGrade")}) {
    inputs.push_back(std::move(input));
  }
  return inputs;
}

void add_studs_in_fire(FindingBuilder& builder, const Panel& panel, const Project& project, const Settings& settings,
                       const Cassette& cassette, const Tables& tables, double time_min, bool load_bearing) {
  const BothSides sides = both_sides(panel, project, cassette, tables, time_min, load_bearing);
  Table table = charring_table(load_bearing);
  BarChart timeline = empty_timeline();
  std::optional<GoverningStud> governing;
  for (const StudsInFire& studs : sides) {
    if (!studs.missing.empty()) {
      builder.step_text(kNotCalculated, joined(studs.missing, "; "));
      return;
    }
  }
  builder.step("time of the standard fire", "t", time_min, "min");
  for (const StudsInFire& studs : sides) {
    SideSteps steps(builder, studs.charring, cassette.exposed(studs.charring.fire_inside));
    steps.add_board(panel, tables);
    steps.add_member();
    steps.add_fasteners();
    add_rows(table, studs, load_bearing);
    add_bars(timeline, studs.charring, time_min);
    keep_governing(governing, studs);
  }
  builder.table(std::move(table)).bar_chart(std::move(timeline));
  const CharringRule rule = sides.front().charring.rule;
  note_rules(builder, rule);
  note_scope(builder, cassette);
  if (!load_bearing) return;
  const LoadInFire load = load_in_fire(panel, project, settings, tables);
  add_load_steps(builder, load);
  if (governing) add_governing(builder, *governing, load);
  note_resistance(builder, rule);
}

}  // namespace panel_dossier::fire
