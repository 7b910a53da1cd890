#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/structural/racking/racking_checks.h"
#include "plugins/structural/racking/racking_design.h"
#include "plugins/structural/racking/sheathing_face.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

using units::millimetres_from_metres;

Table mode_table(const SheathingFace& face) {
  Table table{"Failure modes of a fastener in single shear, (8.6)",
              {{"mode", ""}, {"Johansen part", "N"}, {"rope effect", "N"}, {"F_v,Rk", "N"}, {"", ""}},
              {}};
  const char governing = governing_mode(face.modes).name;
  for (const FailureMode& mode : face.modes) {
    table.rows.push_back({std::string(1, mode.name), mode.johansen_n, mode.rope_n, mode.total_n(),
                          std::string(mode.name == governing ? "governs" : "")});
  }
  return table;
}

/// Of every face, the stronger one first; a second face is named in the rule.
std::vector<DistanceRule> all_rules(const RackingDesign& racking) {
  std::vector<DistanceRule> all = distance_rules(racking.face());
  for (const SheathingFace& face : racking.faces) {
    if (&face == &racking.face()) continue;
    for (DistanceRule rule : distance_rules(face)) {
      rule.name = std::string(face.inside ? "inner" : "outer") + " face: " + rule.name;
      all.push_back(std::move(rule));
    }
  }
  return all;
}

Table distance_table(const std::vector<DistanceRule>& rules) {
  Table table{"Distances", {{"rule", ""}, {"clause", ""}, {"by", ""}, {"value", "mm"}, {"limit", "mm"}, {"", ""}}, {}};
  for (const DistanceRule& rule : rules) {
    const char* state = rule.open() ? "open" : rule.kept() ? "kept" : "not kept";
    table.rows.push_back({rule.name, rule.clause, rule.detail, millimetres_from_metres(rule.value_m),
                          millimetres_from_metres(rule.limit_m), std::string(state)});
  }
  return table;
}

void add_shear_plane(FindingBuilder& builder, const SheathingFace& face) {
  const ShearPlane& plane = face.plane;
  const FailureMode& mode = governing_mode(face.modes);
  if (face.screws) {
    const bool threaded = face.effective_diameter_m != face.diameter_m;
    builder.step("effective diameter, 8.7.1(3): d where 4 · d of smooth shank stand in the timber, else of the root",
                 "d_ef", millimetres_from_metres(face.effective_diameter_m), "mm",
                 threaded ? "d_ef = 1.1 · d_1" : "d_ef = d");
  }
  const std::string d = face.screws ? "d_ef" : "d";
  const bool plywood = face.product == "plywood";
  builder
      .step("penetration into the timber", "t_2", millimetres_from_metres(plane.penetration_m), "mm", "t_2 = l_f − t_1")
      .step(std::string("embedment strength of the sheet, 8.3.1.3") + (plywood ? " (8.20)" : " (8.22)"), "f_h,1,k",
            plane.panel_embedment_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            plywood ? "f_h,1,k = 0.11 · ρ_k,1 · " + d + "^(−0.3)" : "f_h,1,k = 65 · " + d + "^(−0.7) · t_1^0.1")
      .step("embedment strength of the timber (8.15)", "f_h,2,k",
            plane.timber_embedment_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "f_h,2,k = 0.082 · ρ_k · " + d + "^(−0.3)")
      .step("ratio (8.8)", "β", plane.timber_embedment_pa / plane.panel_embedment_pa, "", "β = f_h,2,k / f_h,1,k")
      .step("yield moment (8.14)", "M_y,Rk", plane.yield_moment_nm * 1e3, "Nmm", "M_y,Rk = 0.3 · f_u · " + d + "^2.6")
      .step("rope effect at most, 8.2.2(2), as a share of the Johansen part, and no more than F_ax,Rk / 4", "",
            plane.rope_limit, "")
      .step("characteristic resistance (8.6), mode " + std::string(1, mode.name), "F_v,Rk", mode.total_n(), "N")
      .step("modification factor of the connection (2.6)", "k_mod", face.modification(), "",
            "k_mod = √(k_mod,1 · k_mod,2)")
      .step("design resistance", "F_f,Rd", face.resistance_n(), "N", "F_f,Rd = k_mod · F_v,Rk / γ_M");
}

/// Force on a fastener of the stretch of sheathing that is used most, against its resistance.
void add_edge_force(FindingBuilder& builder, const RackingDesign& racking) {
  const RackingStrip& strip = racking.strips[racking.worst_fastener];
  builder
      .step("racking load on the stretch of sheathing that is used most", "F_i,v,Ed",
            strip.on_face_n() / units::kNewtonPerKilonewton, "kN")
      .step("width of that stretch", "b_i", strip.width_m, "m");
  if (racking.method_a) builder.step("its shape factor, 9.2.4.2(4)", "c_i", strip.shape_factor, "");
  builder
      .step("force on a fastener along an edge", "F_f,Ed", racking.fastener_load_n, "N",
            racking.method_a ? "F_f,Ed = F_i,v,Ed · s / (b_i · c_i)" : "F_f,Ed = F_i,v,Ed · s / b_i")
      .step(racking.method_a ? "resistance along an edge, 9.2.4.2(5)" : "resistance along an edge", "F_f,Rd,e",
            racking.fastener_resistance_n, "N", racking.method_a ? "F_f,Rd,e = 1.2 · F_f,Rd" : "F_f,Rd,e = F_f,Rd");
}

constexpr const char* kStandard = "EN 1995-1-1:2004+A1:2008 ";

std::vector<std::string> clauses_of_distances() {
  std::vector<std::string> clauses = distance_clauses();
  for (std::string& clause : clauses) clause.insert(0, kStandard);
  return clauses;
}

/// A rule that is broken, or kept by common practice alone; none where all are kept. A broken one comes first.
const DistanceRule* worst_rule(const std::vector<DistanceRule>& rules) {
  const auto broken = std::find_if(rules.begin(), rules.end(), [](const DistanceRule& rule) { return !rule.kept(); });
  if (broken != rules.end()) return &*broken;
  const auto open = std::find_if(rules.begin(), rules.end(), [](const DistanceRule& rule) { return rule.open(); });
  return open != rules.end() ? &*open : nullptr;
}

/// A panel without racking load: its fixings pass none.
Finding without_racking(FindingBuilder& builder, const Panel& panel, const StudDesign& design,
                        const RackingDesign& racking) {
  builder.logical("load-bearing", panel.load_bearing(), {});
  add_inputs(builder, racking.inputs);
  builder.step_text("racking load", design.basis.load_bearing
                                        ? "the structural engineer gives the panel none"
                                        : "none: not load-bearing, braced by the frame it is fixed to");
  return builder.inform_text("no racking load");
}

}  // namespace

const CheckDeclaration kSheathingFixingsCheck{
    .id = "structural.sheathing_fixings",
    .title = "Fixings of the sheathing",
    .project_title = {},
    .sentence =
        "The force on a fastener along the edge of the sheathing used most under the racking load is at most its "
        "design resistance, and spacings, edge distances and penetration of all faces keep their rules.",
    .clause = "EN 1995-1-1:2004+A1:2008 8.2.2",
    .other_clauses = clauses_of_distances(),
    .units = {"N", "mm"},
    .kind = CheckKind::limit,
    .inputs = with_parts(with_sheathing({property("Panel_Fastener.IntermediateSpacing")})),
    .limits = {"Distances are those the export declares, not measured.",
               "Staples, predrilled holes and diameters above 6 mm are not covered.",
               "Without a declared withdrawal capacity the rope effect is 0.",
               "3 d from the edge of a sheet is the rule for plywood; for OSB and particleboard it is common practice, "
               "which is an open point below the 5 d or 7 d of table 8.2."}};

Finding sheathing_fixings(const Panel& panel, const StudDesign& design, const RackingDesign& racking) {
  FindingBuilder builder(kSheathingFixingsCheck, panel.global_id);
  builder.decimals(0);
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  if (!design.basis.load_bearing || racking.no_racking_load()) return without_racking(builder, panel, design, racking);
  add_inputs(builder, racking.inputs);
  for (const std::string& what : racking.missing) builder.missing(what);
  if (!racking.missing.empty()) return builder.not_assessed();
  const SheathingFace& face = racking.face();
  add_face_inputs(builder, racking);
  for (const SheathingFace& one : racking.faces) {
    if (one.intermediate_spacing_m) continue;
    builder.missing("Panel_Fastener.IntermediateSpacing of the " + std::string(one.inside ? "inner" : "outer") +
                    " sheathing (on studs between the edges of a sheet, 10.8.2)");
  }
  if (builder.incomplete()) return builder.not_assessed();
  add_shear_plane(builder, face);
  const std::vector<DistanceRule> rules = all_rules(racking);
  add_edge_force(builder, racking);
  builder.table(mode_table(face))
      .table(distance_table(rules))
      .drawing(edge_detail(face))
      .note(
          "Round wire or screws up to 6 mm with a head of at least 2 · d, no predrilled holes. Without a declared "
          "withdrawal capacity (Panel_Fastener.WithdrawalCapacity) the rope effect is 0. Distances are those the "
          "export "
          "declares, not measured; d in them is the nominal diameter.");
  const DistanceRule* rule = worst_rule(rules);
  const bool strong = racking.fastener_load_n <= racking.fastener_resistance_n;
  if (rule != nullptr && !rule->kept()) {
    builder.clause(kStandard + rule->clause);
    const std::string by = kStandard + rule->clause + (rule->detail.empty() ? "" : ": " + rule->detail);
    return builder.judge(millimetres_from_metres(rule->value_m), "mm",
                         rule->at_least ? Relation::at_least : Relation::at_most,
                         millimetres_from_metres(rule->limit_m), rule->name + " is not kept (" + by + ")");
  }
  if (rule != nullptr && strong) {
    builder.clause(kStandard + rule->clause);
    return builder.needs_evidence(
        rule->name + " of " + fixed_text(millimetres_from_metres(rule->value_m), 1) +
        " mm keeps 3 d by common practice, but " + kStandard + rule->clause + " asks for " +
        fixed_text(millimetres_from_metres(rule->asked_m), 1) +
        " mm: a declaration of this fastener in this board, or a wider distance (Panel_Fastener.EdgeDistance)");
  }
  return builder.judge(racking.fastener_load_n, "N", Relation::at_most, racking.fastener_resistance_n,
                       "the force on a fastener exceeds its resistance");
}

}  // namespace panel_dossier::structural
