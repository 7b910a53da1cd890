#include "plugins/fire/calculation/charring_steps.h"

#include <string>

#include "plugins/fire/calculation/calculation_notes.h"
#include "plugins/fire/calculation/charring.h"

namespace panel_dossier::fire {

namespace {

std::string side_of(const StudCharring& charring) {
  return std::string(", fire ") + face(charring.fire_inside);
}

const char* start_formula(const CassetteBoard& board, bool wood_panel, bool early) {
  if (wood_panel) {
    return early ? "t_ch = h_p / (β_0 · k_ρ · k_h) − 4 (annexes C and D)" : "t_ch = h_p / (β_0 · k_ρ · k_h) (3.10)";
  }
  return board.open_joints() ? "t_ch = 2.8 · h_p − 23 (3.12)" : "t_ch = 2.8 · h_p − 14 (3.11)";
}

void add_wood_panel(FindingBuilder& builder, const CassetteBoard& board, const std::string& side,
                    const Sourced<double>& rate) {
  const Sourced<double>& density = board.characteristic_density_kg_per_m3;
  builder.number("charring rate of the board" + side, "β_0", "mm/min", rate, {});
  builder.number("characteristic density of the board" + side, "ρ_k", "kg/m³", density, {});
  builder.step("density factor of the board" + side, "k_ρ", density_factor(density.value), "", "k_ρ = √(450 / ρ_k)")
      .step("thickness factor of the board" + side, "k_h", thickness_factor(board.thickness_mm), "",
            "k_h = √(20 / h_p) ≥ 1");
}

/// Annex C: rates of the narrow face.
void add_narrow_face(FindingBuilder& builder, const StudCharring& c, const std::string& side) {
  builder.step("charring rate of the member" + side + ", table 3.1", "β_0", c.rate_mm_per_min, "mm/min")
      .step("factor of the stud's width" + side + ", table C1", "k_s", c.section_factor, "",
            "1.4, 1.3, 1.1 at 38, 45, 60 mm");
  if (c.phases.slow_mm_per_min > 0.0 && c.phases.fall_off_min > c.phases.start_min) {
    builder.step("rate before fall-off" + side, "k_2 · β", c.phases.slow_mm_per_min, "mm/min",
                 "k_s · 1.5 · (1.05 − 0.0073 · h_p) · β_0 (C.1, C.3)");
  }
  builder.step("rate after fall-off" + side, "β_n", c.phases.fast_mm_per_min, "mm/min",
               "β_n = k_s · 1.5 · (1 + 0.036 · t_f) · β_0 (C.2, C.6)");
}

void add_three_faces(FindingBuilder& builder, const StudCharring& c, const std::string& side) {
  builder.step("charring rate of the member" + side + ", table 3.1", "β_n", c.rate_mm_per_min, "mm/min");
  if (c.phases.fall_off_min > c.phases.start_min) {
    builder.step("rate before fall-off" + side, "k_2 · β_n", c.phases.slow_mm_per_min, "mm/min",
                 "(1 − 0.018 · h_p) · β_n (3.7)");
  }
  builder.step("end of fast charring" + side, "t_a", c.phases.plain_from_min, "min",
               "2 · β_n from t_f until 25 mm or, where t_f = t_ch, 2 · t_f (3.8, 3.9)");
}

}  // namespace

void add_board_steps(FindingBuilder& builder, const StudCharring& charring, const CassetteBoard& board,
                     const Panel& panel, const Tables& tables) {
  const std::string side = side_of(charring);
  const auto rate = tables.boards.number(board.key, "charring_mm_per_min");
  builder.number("thickness of '" + panel.layers[board.layer].name + "'" + side, "h_p", "mm",
                 Sourced<double>{board.thickness_mm, panel.layers[board.layer].thickness_m.origin}, {});
  if (rate) add_wood_panel(builder, board, side, *rate);
  if (board.tested_failure_min) {
    builder.number("tested time to fall-off of the board" + side, "", "min", board.tested_failure_min, {});
  }
  builder
      .step("start of charring behind the board" + side, "t_ch", charring.board.start_min, "min",
            start_formula(board, rate.has_value(), charring.board.early))
      .step("fall-off of the board" + side, "t_f", charring.board.fall_off_min, "min",
            charring.board.fall_off_min > charring.board.start_min ? "the lesser of the tested time and pull-out (C.9)"
                                                                   : "t_f = t_ch");
}

void add_member_steps(FindingBuilder& builder, const StudCharring& c) {
  const std::string side = side_of(c);
  if (c.failed) {
    builder.step_text("members" + side, "fail at t_f: glass wool does not protect them then (annex C)");
    return;
  }
  const bool three_faces = c.rule == CharringRule::three_faces;
  if (three_faces) {
    add_three_faces(builder, c, side);
  } else {
    add_narrow_face(builder, c, side);
  }
  builder
      .step("notional char depth" + side, "d_char,n", c.char_depth_mm, "mm",
            three_faces ? "rates times durations up to t, on three faces"
                        : "rates times durations up to t, on the narrow face")
      .step("factor of the zero-strength layer" + side, "k_0", c.zero_strength_factor, "", "t / max(20 min; t_ch) ≤ 1")
      .step("effective char depth" + side, "d_ef", c.effective_depth_mm, "mm", "d_ef = d_char,n + k_0 · 7 mm");
}

void add_fastener_steps(FindingBuilder& builder, const StudCharring& charring, const CassetteBoard& board) {
  const std::string side = side_of(charring);
  builder.step("fastener length asked for at fall-off" + side + ", 3.4.3.4", "l_f,req", charring.required_fastener_mm,
               "mm", "l_f,req = h_p + d_char,0 + 10 mm");
  if (!board.fixings.shortest_m) {
    builder.step_text("fasteners of the board" + side, "length not given (Panel_Fastener.Length)");
    return;
  }
  const double length_mm = board.fixings.shortest_m->value * 1e3;
  builder.number("shortest fastener of the board" + side, "l_f", "m", board.fixings.shortest_m, {});
  builder.step_text("fasteners of the board" + side, length_mm >= charring.required_fastener_mm
                                                         ? "long enough"
                                                         : "too short: the board falls off before t_f");
}

}  // namespace panel_dossier::fire
