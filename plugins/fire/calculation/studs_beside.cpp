#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <utility>

#include "core/api/support/words.h"
#include "plugins/fire/calculation/calculation_beside.h"
#include "plugins/fire/calculation/calculation_notes.h"
#include "plugins/fire/calculation/charring_steps.h"
#include "plugins/fire/calculation/load_in_fire.h"
#include "plugins/fire/calculation/stud_in_fire.h"

namespace panel_dossier::fire {

namespace {

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
    table.rows.back().emplace_back(stud.tributary_width_m);
    table.rows.back().emplace_back(stud.buckling_factor);
    table.rows.back().emplace_back(stud.resistance_n / 1e3);
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
                                                : "not prevented: no wood panel away from the fire with its sheets "
                                                  "and Panel_Fastener.Spacing in the export")
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
          "Panel_Fire.FailureTime "
          "gives its tested time and Panel_Fastener.Length its fasteners. A wood panel falls off when charred through "
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

}  // namespace

void add_studs_in_fire(FindingBuilder& builder, const Panel& panel, const Project& project, const Settings& settings,
                       const Cassette& cassette, const Tables& tables, double time_min, bool load_bearing) {
  Table table = charring_table(load_bearing);
  BarChart timeline = empty_timeline();
  std::optional<GoverningStud> governing;
  CharringRule rule = CharringRule::three_faces;
  for (const bool fire_inside : {true, false}) {
    const StudsInFire studs = studs_in_fire(panel, project, cassette, tables, time_min, fire_inside, load_bearing);
    if (!studs.missing.empty()) {
      builder.step_text(kNotCalculated, joined(studs.missing, "; "));
      return;
    }
    const CassetteBoard& board = fire_inside ? *cassette.inside : *cassette.outside;
    rule = studs.charring.rule;
    add_board_steps(builder, studs.charring, board, panel, tables);
    add_member_steps(builder, studs.charring);
    add_fastener_steps(builder, studs.charring, board);
    add_rows(table, studs, load_bearing);
    add_bars(timeline, studs.charring, time_min);
    keep_governing(governing, studs);
  }
  builder.table(std::move(table)).bar_chart(std::move(timeline));
  note_rules(builder, rule);
  note_scope(builder, cassette);
  if (!load_bearing) return;
  const auto load_n_per_m = load_in_fire_n_per_m(builder, panel, project, settings, tables);
  if (governing) add_governing(builder, *governing, load_n_per_m);
  note_resistance(builder, rule);
}

}  // namespace panel_dossier::fire
