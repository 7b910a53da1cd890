#include <algorithm>
#include <string>
#include <vector>

#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/structural/racking/racking_checks.h"
#include "plugins/structural/racking/racking_design.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

constexpr double kSlendernessLimit = 100.0;  ///< bnet/t, 9.2.4.2(11)

std::string face_name(const SheathingFace& face) {
  return face.inside ? "inner" : "outer";
}

Table strip_table(const RackingDesign& racking) {
  Table table{"Sheathing over the whole height",
              {{"face", ""},
               {"from x", "m"},
               {"b_i", "m"},
               {"c_i", ""},
               {"share", ""},
               {"F_i,v,Rd", "kN"},
               {"F_i,v,Ed", "kN"},
               {"F_i,c,Ed", "kN"}},
              {}};
  for (const RackingStrip& strip : racking.strips) {
    table.rows.push_back({face_name(racking.faces[strip.face]), strip.from_m, strip.width_m, strip.shape_factor,
                          strip.share, strip.resistance_n / units::kNewtonPerKilonewton,
                          strip.load_n / units::kNewtonPerKilonewton,
                          strip.compression_n / units::kNewtonPerKilonewton});
  }
  return table;
}

/// The edges without a tie-down that they need.
std::vector<std::string> loose_ends(const Panel& panel, const RackingDesign& racking) {
  std::vector<std::string> ends;
  for (const Uplift& edge : racking.uplifts) {
    if (edge.force_n() == 0.0 || edge.resistance_n) continue;
    const std::string force =
        fixed_text(edge.force_n() / units::kNewtonPerKilonewton, 2) + " kN at x = " + fixed_text(edge.x_m, 2) + " m";
    ends.push_back(edge.part ? "Panel_Fastener.DesignTension of '" + panel.parts[*edge.part].name + "' for " + force
                             : "a tie-down (fastener TIE_DOWN with Panel_Fastener.DesignTension) for " + force);
  }
  return ends;
}

Table uplift_table(const Panel& panel, const RackingDesign& racking) {
  Table table{"Uplift at the ends of sheathing",
              {{"at x", "m"},
               {"pull", "kN"},
               {"held down", "kN"},
               {"F_t,Ed", "kN"},
               {"tie-down", ""},
               {"F_t,Rd", "kN"},
               {"use", ""}},
              {}};
  for (const Uplift& edge : racking.uplifts) {
    Value resistance = std::string("-");
    if (edge.resistance_n) resistance = *edge.resistance_n / units::kNewtonPerKilonewton;
    table.rows.push_back({edge.x_m, edge.pull_n / units::kNewtonPerKilonewton,
                          edge.held_down_n / units::kNewtonPerKilonewton, edge.force_n() / units::kNewtonPerKilonewton,
                          edge.part ? panel.parts[*edge.part].name : std::string("none"), resistance, edge.use()});
  }
  return table;
}

/// Sheet, tie-down or sheathing, whichever is used most; a tie-down that is not there asks for evidence.
Finding judge_racking(FindingBuilder& builder, const Panel& panel, const RackingDesign& racking) {
  const double sheet_use =
      racking.panel_shear_design_pa > 0.0 ? racking.panel_shear_stress_pa / racking.panel_shear_design_pa : 0.0;
  const double wall_use = racking.load_n / racking.resistance_n;
  const auto worst = std::max_element(racking.uplifts.begin(), racking.uplifts.end(),
                                      [](const Uplift& a, const Uplift& b) { return a.use() < b.use(); });
  const double tie_use = worst == racking.uplifts.end() ? 0.0 : worst->use();
  const auto loose = loose_ends(panel, racking);
  if (!loose.empty() && std::max({sheet_use, wall_use, tie_use}) <= 1.0) {
    std::string what;
    for (const std::string& end : loose) what += (what.empty() ? "" : "; ") + end;
    return builder.needs_evidence("the end of a bracing wall must be tied down, 9.2.4.2(1): " + what);
  }
  if (tie_use > std::max(sheet_use, wall_use)) {
    return builder.judge(worst->force_n() / units::kNewtonPerKilonewton, "kN", Relation::at_most,
                         *worst->resistance_n / units::kNewtonPerKilonewton,
                         "the tie-down '" + panel.parts[*worst->part].name + "' is too weak for the uplift");
  }
  if (sheet_use > wall_use) {
    return builder.judge(racking.panel_shear_stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²", Relation::at_most,
                         racking.panel_shear_design_pa / units::kPascalPerNewtonPerMm2,
                         "the sheet is too weak in shear");
  }
  return builder.judge(racking.load_n / units::kNewtonPerKilonewton, "kN", Relation::at_most,
                       racking.resistance_n / units::kNewtonPerKilonewton,
                       "the racking load exceeds the resistance of the sheathing");
}

/// Factors of the first wall.
void add_method_b(FindingBuilder& builder, const RackingDesign& racking) {
  const RackingStrip& wall = racking.strips.front();
  const MethodB& b = *wall.method_b;
  builder
      .step(racking.uplift_known ? "permanent load less net uplift of wind, for k_i,q, 9.2.4.3.2(4)"
                                 : "permanent load for k_i,q: none, for the net uplift of wind is not given",
            "g_d", racking.stabilising_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            racking.uplift_known ? "g_d = max(0; γ_G,inf · (g_0 + G_k) − γ_Q · w_u)" : "g_d = 0")
      .step("length of the first wall", "b_w", wall.width_m, "m")
      .step("basic spacing (9.26)", "s_0", b.basic_spacing_m * 1e3, "mm", "s_0 = 9700 · d / ρ_k")
      .step("dimension factor (9.27)", "k_d", b.dimension_factor, "",
            wall.width_m <= racking.height_m ? "k_d = b_w / h" : "k_d = (min(b_w; 4.8) / h)^0.4")
      .step("factor of vertical load (9.28)", "k_i,q", b.load_factor, "",
            "k_i,q = 1 + (0.083 · g_d − 0.0008 · g_d²) · (2.4 / b_w)^0.4")
      .step("spacing factor (9.29)", "k_s", b.spacing_factor, "", "k_s = 1 / (0.86 · s / s_0 + 0.57)")
      .step("sheathing factor (9.30), with half of what lies behind on the other face", "k_n", b.sheathing_factor, "");
}

/// Stress in the sheet that is used most, and its strength. `of`: ending of the symbols of its face.
void add_sheet(FindingBuilder& builder, const RackingDesign& racking, const std::string& of) {
  const RackingStrip& strip = racking.strips[racking.worst_sheet];
  builder.step("racking load on the sheet used most", "F_s", strip.on_face_n() / units::kNewtonPerKilonewton, "kN")
      .step("width of that sheet", "b_s", strip.width_m, "m")
      .step("shear stress in the sheet", "τ_d", racking.panel_shear_stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "τ_d = F_s / (b_s · t_1" + of + ")")
      .step("panel shear strength", "f_v,d", racking.panel_shear_design_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "f_v,d = k_mod,2" + of + " · f_v,k" + of + " / γ_M,2" + of);
}

void add_fastener(FindingBuilder& builder, const SheathingFace& face) {
  builder
      .step("modification factor of the connection (2.6)", "k_mod", face.modification(), "",
            "k_mod = √(k_mod,1 · k_mod,2)")
      .step("characteristic resistance of a fastener (8.6), smallest of the modes of " + kSheathingFixingsCheck.id,
            "F_v,Rk", governing_mode(face.modes).total_n(), "N")
      .step("design resistance of a fastener", "F_f,Rd", face.resistance_n(), "N", "F_f,Rd = k_mod · F_v,Rk / γ_M");
}

/// A panel that is no part of the bracing.
Finding not_bracing(FindingBuilder& builder, const Panel& panel, const StudDesign& design,
                    const RackingDesign& racking) {
  builder.logical("load-bearing", panel.load_bearing(), {});
  add_inputs(builder, racking.inputs);
  builder.step_text("bracing", design.basis.load_bearing ? "the structural engineer gives it no racking load"
                                                         : "not load-bearing: braced by the frame it is fixed to");
  return builder.inform_text("not part of the bracing");
}

void add_racking_steps(FindingBuilder& builder, const StudDesign& design, const RackingDesign& racking) {
  const DesignBasis& basis = design.basis;
  builder
      .step("design racking load", "F_v,Ed", racking.load_n / units::kNewtonPerKilonewton, "kN", "F_v,Ed = γ_Q · F_v,k")
      .step("height", "h", racking.height_m, "m", "h = H")
      .step("self-weight of the panel, all of it", "g_0",
            basis.self_weight_n_per_m / basis.self_weight_share / units::kNewtonPerKilonewton, "kN/m",
            "g_0 = m · 9.80665 / (1000 · B)");
  add_fastener(builder, racking.face());
  if (racking.faces.size() > 1) {
    builder.step_text("face whose sheets count in full", face_name(racking.face()));
  }
  if (!racking.method_a) add_method_b(builder, racking);
  builder
      .step(racking.method_a ? "resistance, of a sheet 1.2 · F_f,Rd · b_i · c_i / s with c_i = min(1; 2 · b_i / h)"
                             : "resistance, of a wall F_f,Rd · b_i / s_0 · k_d · k_i,q · k_s · k_n",
            "F_v,Rd", racking.resistance_n / units::kNewtonPerKilonewton, "kN", "F_v,Rd = sum(F_i,v,Rd)")
      .step(racking.uplift_known ? "permanent load less net uplift of wind, against uplift"
                                 : "permanent load against uplift: none, for the net uplift of wind is not given",
            "g_t", racking.held_down_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            racking.uplift_known ? "g_t = max(0; γ_G,inf,EQU · (g_0 + G_k) − γ_Q · w_u)" : "g_t = 0")
      .step("force in the end studs (9.23), largest", "F_c,Ed",
            racking.largest_compression_n() / units::kNewtonPerKilonewton, "kN", "F_c,Ed = max(F_i,v,Ed · h / b_i)")
      .step("clear width of a sheet between studs over its thickness, 9.2.4.2(11): no shear buckling up to 100",
            "b_net / t", racking.sheet_slenderness, "");
  if (racking.panel_shear_design_pa > 0.0) {
    add_sheet(builder, racking, ending_of(racking, racking.strips[racking.worst_sheet].face));
  }
}

void add_racking_notes(FindingBuilder& builder, const StudDesign& design, const RackingDesign& racking) {
  if (const char* chosen = racking.method_a ? "A" : "B";
      !racking.annex_method.empty() && racking.annex_method != chosen) {
    builder.note("National annex '" + design.basis.annex + "' asks for method " + racking.annex_method +
                 ", 9.2.4.1(7) (from memory); setting structural.racking_method is " + chosen +
                 ". The structural engineer must agree to it.");
  }
  if (!racking.uplift_known) {
    builder.note(
        "The net uplift of wind on the head is not given (Panel_Structure.WindUpliftLineLoad, 0 where there is none), "
        "so permanent load holds nothing down and does not raise the resistance.");
  }
  builder.note(
      "Every edge of a sheet, horizontal joints too, must be fixed to timber at s. Pull at an end of sheathing is "
      "F_i,v,Ed · h / b_i, where sheets meet less the push; g_t on half of the sheathing beside it holds it down. "
      "What the tie-down is fixed to, and sliding of the sole, are not checked here.");
  if (!racking.method_a) return;
  builder.note(
      "Method A holds for a wall whose end studs are connected to the construction below, 9.2.4.2(1): see to it "
      "where "
      "no uplift is left, too.");
}

constexpr const char* kMethodB = "EN 1995-1-1:2004+A1:2008 9.2.4.3";

}  // namespace

std::vector<CheckInput> with_sheathing(const std::vector<CheckInput>& more) {
  std::vector<CheckInput> inputs = with_design_basis(
      {property("Panel_Structure.RackingLoad"), property("Panel_Board.ProductStandard"),
       optional_property("Panel_Board.CharacteristicDensity"), optional_property("Panel_Fire.ProtectionRole"),
       property("Panel_Fastener.Diameter"), property("Panel_Fastener.Length"), property("Panel_Fastener.Spacing"),
       property("Panel_Fastener.EdgeDistance"), property("Panel_Fastener.TensileStrength"),
       optional_property("Panel_Fastener.Shank"), optional_property("Panel_Fastener.RootDiameter"),
       optional_property("Panel_Fastener.SmoothShankLength"), optional_property("Panel_Fastener.WithdrawalCapacity"),
       optional_property("Panel_Structure.WindUpliftLineLoad"), setting("structural.racking_method"),
       data_table("panel_products.csv")});
  inputs.insert(inputs.end(), more.begin(), more.end());
  return inputs;
}

std::string ending_of(const RackingDesign& racking, std::size_t face) {
  return face == racking.stronger ? std::string() : std::string(",o");
}

void add_face_inputs(FindingBuilder& builder, const RackingDesign& racking) {
  for (std::size_t i = 0; i < racking.faces.size(); ++i) {
    std::vector<Input> inputs = racking.faces[i].inputs;
    for (Input& input : inputs) {
      if (!input.symbol.empty()) input.symbol += ending_of(racking, i);
    }
    add_inputs(builder, inputs);
  }
}

const CheckDeclaration kRackingCheck{
    .id = "structural.racking",
    .title = "Racking",
    .project_title = {},
    .sentence =
        "The design racking load of a load-bearing panel is at most what its sheathing resists, the shear stress in "
        "each sheet and the uplift at each tie-down at most what those resist, and the fixings of the sheathing pass "
        "their own check.",
    .clause = "EN 1995-1-1:2004+A1:2008 9.2.4.2",
    .other_clauses = {kMethodB},
    .units = {"kN", "N/mm²"},
    .kind = CheckKind::limit,
    .inputs = with_parts(with_sheathing(
        {property("Panel_Fastener.DesignTension"), optional_property("Panel_Fastener.IntermediateSpacing")})),
    .limits = {"What a tie-down is fixed to and sliding of the sole are not checked.",
               "Horizontal joints of sheets are taken to be fixed to timber at the same spacing.",
               "Gypsum boards and sheets that do not reach over the whole height do not count.",
               "How the racking load is shared among panels is the structural engineer's."}};

Finding racking(const Panel& panel, const StudDesign& design, const RackingDesign& racking) {
  FindingBuilder builder(kRackingCheck, panel.global_id);
  if (!racking.method_a) builder.clause(kMethodB);
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  if (!design.basis.load_bearing || racking.no_racking_load()) return not_bracing(builder, panel, design, racking);
  add_inputs(builder, racking.inputs);
  for (const std::string& what : racking.missing) builder.missing(what);
  if (!racking.missing.empty()) return builder.not_assessed();
  add_face_inputs(builder, racking);
  add_inputs(builder, design.basis.inputs);
  add_racking_steps(builder, design, racking);
  builder.table(strip_table(racking)).table(uplift_table(panel, racking)).drawing(racking_elevation(panel, racking));
  add_racking_notes(builder, design, racking);
  if (racking.sheet_slenderness > kSlendernessLimit) {
    builder.missing("shear buckling of the sheet: b_net / t exceeds 100, 9.2.4.2(11); studs nearer to each other");
  }
  Finding finding = judge_racking(builder, panel, racking);
  if (finding.verdict == Verdict::pass && sheathing_fixings(panel, design, racking).verdict != Verdict::pass) {
    finding.verdict = Verdict::evidence_needed;
    finding.reason = "it rests on fixings that are not proved: see " + kSheathingFixingsCheck.id;
  }
  return finding;
}

}  // namespace panel_dossier::structural
