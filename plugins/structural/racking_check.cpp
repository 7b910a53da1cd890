#include "plugins/structural/racking_check.h"

#include <algorithm>

#include "plugins/structural/stud_report.h"

namespace panel_dossier::structural {

namespace {

constexpr double kSlendernessLimit = 100.0;  ///< bnet/t, 9.2.4.2(11)

Table strip_table(const RackingDesign& racking) {
  Table table{"Sheathing over the whole height",
              {{"from x", "m"},
               {"b_i", "m"},
               {"c_i", ""},
               {"F_i,v,Rd", "kN"},
               {"F_i,v,Ed", "kN"},
               {"F_i,c,Ed", "kN"},
               {"tie-down", "kN"}},
              {}};
  for (const RackingStrip& strip : racking.strips) {
    table.rows.push_back({strip.from_m, strip.width_m, strip.shape_factor, strip.resistance_n / kNPerKn,
                          strip.load_n / kNPerKn, strip.compression_n / kNPerKn, strip.tie_down_n / kNPerKn});
  }
  return table;
}

void add_method_b(FindingBuilder& builder, const MethodB& b) {
  builder.step("basic spacing (9.26)", "s_0", b.basic_spacing_m * 1e3, "mm", "s_0 = 9700 · d / ρ_k")
      .step("dimension factor (9.27)", "k_d", b.dimension_factor, "")
      .step("factor of vertical load (9.28)", "k_i,q", b.load_factor, "",
            "1 + (0.083 · q − 0.0008 · q²) · (2.4 / b)^0.4")
      .step("spacing factor (9.29)", "k_s", b.spacing_factor, "", "1 / (0.86 · s / s_0 + 0.57)")
      .step("sheathing factor (9.30)", "k_n", b.sheathing_factor, "");
}

void add_fastener(FindingBuilder& builder, const SheathingFace& face) {
  builder.step("modification factor of the connection (2.6)", "k_mod", face.modification(), "", "√(k_mod,1 · k_mod,2)")
      .step("characteristic resistance of a fastener (8.6)", "F_v,Rk", governing_mode(face.modes).total_n(), "N",
            "smallest of the modes, see structural.sheathing_fixings")
      .step("design resistance of a fastener", "F_f,Rd", face.resistance_n(), "N", "k_mod · F_v,Rk / γ_M");
}

}  // namespace

Finding racking(const Panel& panel, const StudDesign& design, const RackingDesign& racking) {
  FindingBuilder builder("structural.racking", "Racking", panel.global_id,
                         racking.method_a ? "EN 1995-1-1:2004+A1:2008 9.2.4.2" : "EN 1995-1-1:2004+A1:2008 9.2.4.3");
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  if (!design.basis.load_bearing || racking.no_racking_load()) {
    builder.logical("load-bearing", panel.load_bearing(), {});
    add_inputs(builder, racking.inputs);
    builder.step_text("bracing", design.basis.load_bearing ? "the structural engineer gives it no racking load"
                                                           : "not load-bearing: braced by the frame it is fixed to");
    return builder.inform_text("not part of the bracing");
  }
  add_inputs(builder, racking.inputs);
  for (const std::string& what : racking.missing) builder.missing(what);
  if (!racking.missing.empty()) return builder.not_assessed();
  const SheathingFace& face = racking.face;
  add_inputs(builder, face.inputs);
  builder.step("design racking load", "F_v,Ed", racking.load_n / kNPerKn, "kN", "γ_Q · F_v,k")
      .step("height", "h", racking.height_m, "m");
  add_fastener(builder, face);
  if (racking.weaker_share > 0.0) {
    builder.step("share of the second face, 9.2.4.2(7)", "ρ_2", racking.weaker_share, "");
  }
  if (racking.strips.front().method_b) add_method_b(builder, *racking.strips.front().method_b);
  builder
      .step("resistance", "F_v,Rd", racking.resistance_n / kNPerKn, "kN",
            racking.method_a ? "Σ 1.2 · F_f,Rd · b_i · c_i / s; c_i = min(1; 2 · b_i / h), 0 for b_i < h / 4"
                             : "Σ F_f,Rd · b_i / s_0 · k_d · k_i,q · k_s · k_n")
      .step("permanent load that holds the panel down", "g_d", racking.stabilising_n_per_m / kNPerKn, "kN/m",
            "γ_G,inf · (g_0 + G_k)")
      .step("force in the end studs (9.23), largest", "F_i,c,Ed",
            std::max_element(
                racking.strips.begin(), racking.strips.end(),
                [](const auto& a, const auto& b) {
                  return a.compression_n < b.compression_n;
                })->compression_n /
                kNPerKn,
            "kN", "F_i,v,Ed · h / b_i")
      .step("clear width of a sheet between studs over its thickness, 9.2.4.2(11)", "b_net / t",
            racking.sheet_slenderness, "", "no shear buckling up to 100");
  if (racking.panel_shear_design_pa > 0.0) {
    builder
        .step("shear stress in the sheet", "τ_d", racking.panel_shear_stress_pa / kPaPerNPerMm2, "N/mm²",
              "F_i,v,Ed / (b_i · t_1)")
        .step("panel shear strength", "f_v,d", racking.panel_shear_design_pa / kPaPerNPerMm2, "N/mm²",
              "k_mod,2 · f_v,k / γ_M");
  }
  builder.table(strip_table(racking))
      .note(
          "Every edge of a sheet, horizontal joints too, must be fixed to timber at s. The tie-down is F_i,v,Ed · h / "
          "b_i "
          "less g_d · b_i / 2; between sheets that meet, pull and push cancel, so it acts at the ends of the wall and "
          "beside openings. Its connector, the force in the end studs together with other load, and sliding on the "
          "sole "
          "are not checked here.");
  if (racking.sheet_slenderness > kSlendernessLimit) {
    builder.missing("shear buckling of the sheet: b_net / t exceeds 100, 9.2.4.2(11); studs nearer to each other");
  }
  if (racking.panel_shear_design_pa > 0.0 && racking.panel_shear_stress_pa > racking.panel_shear_design_pa) {
    return builder.judge(racking.panel_shear_stress_pa / kPaPerNPerMm2, "N/mm²", Relation::at_most,
                         racking.panel_shear_design_pa / kPaPerNPerMm2, "the sheet is too weak in shear");
  }
  return builder.judge(racking.load_n / kNPerKn, "kN", Relation::at_most, racking.resistance_n / kNPerKn,
                       "the racking load exceeds the resistance of the sheathing");
}

}  // namespace panel_dossier::structural
