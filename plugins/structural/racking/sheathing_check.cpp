#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "core/api/support/units.h"
#include "plugins/structural/racking/check.h"
#include "plugins/structural/racking/sheathing_drawing.h"
#include "plugins/structural/racking/sheathing_spacing.h"
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
  Table table{"Distances", {{"rule", ""}, {"clause", ""}, {"value", "mm"}, {"limit", "mm"}, {"", ""}}, {}};
  for (const DistanceRule& rule : rules) {
    table.rows.push_back({rule.name, rule.clause, millimetres_from_metres(rule.value_m),
                          millimetres_from_metres(rule.limit_m), std::string(rule.kept() ? "kept" : "not kept")});
  }
  return table;
}

void add_shear_plane(FindingBuilder& builder, const SheathingFace& face) {
  const ShearPlane& plane = face.plane;
  const FailureMode& mode = governing_mode(face.modes);
  if (face.screws) {
    builder.step("effective diameter, 8.7.1(3)", "d_ef", millimetres_from_metres(face.effective_diameter_m), "mm",
                 "d where 4 · d of smooth shank stand in the timber, else 1.1 · d_1");
  }
  builder.step("penetration into the timber", "t_2", millimetres_from_metres(plane.penetration_m), "mm", "l_f − t_1")
      .step("embedment strength of the sheet, 8.3.1.3", "f_h,1,k",
            plane.panel_embedment_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            face.product == "plywood" ? "(8.20): 0.11 · ρ_k · d^−0.3" : "(8.22): 65 · d^−0.7 · t^0.1")
      .step("embedment strength of the timber (8.15)", "f_h,2,k",
            plane.timber_embedment_pa / units::kPascalPerNewtonPerMm2, "N/mm²", "0.082 · ρ_k · d^−0.3")
      .step("ratio (8.8)", "β", plane.timber_embedment_pa / plane.panel_embedment_pa, "", "f_h,2,k / f_h,1,k")
      .step("yield moment (8.14)", "M_y,Rk", plane.yield_moment_nm * 1e3, "Nmm", "0.3 · f_u · d^2.6")
      .step("rope effect at most, 8.2.2(2)", "", plane.rope_limit, "", "share of the Johansen part; F_ax,Rk / 4")
      .step("characteristic resistance (8.6), mode " + std::string(1, mode.name), "F_v,Rk", mode.total_n(), "N")
      .step("modification factor of the connection (2.6)", "k_mod", face.modification(), "", "√(k_mod,1 · k_mod,2)")
      .step("design resistance", "F_f,Rd", face.resistance_n(), "N", "k_mod · F_v,Rk / γ_M");
}

}  // namespace

Finding sheathing_fixings(const Panel& panel, const StudDesign& design, const RackingDesign& racking) {
  FindingBuilder builder("structural.sheathing_fixings", "Fixings of the sheathing", panel.global_id,
                         "EN 1995-1-1:2004+A1:2008 8.2.2, 8.3.1, 9.2.4");
  builder.decimals(0);
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  add_inputs(builder, racking.inputs);
  for (const std::string& what : racking.missing) builder.missing(what);
  if (!racking.missing.empty()) return builder.not_assessed();
  const SheathingFace& face = racking.face();
  for (const SheathingFace& one : racking.faces) {
    add_inputs(builder, one.inputs);
    if (one.intermediate_spacing_m) continue;
    builder.missing("Panel_Fastener.IntermediateSpacing of the " + std::string(one.inside ? "inner" : "outer") +
                    " sheathing (on studs between the edges of a sheet, 10.8.2)");
  }
  if (builder.incomplete()) return builder.not_assessed();
  add_shear_plane(builder, face);
  const std::vector<DistanceRule> rules = all_rules(racking);
  builder
      .step("force on a fastener along an edge", "F_f,Ed", racking.fastener_load_n, "N",
            racking.method_a ? "F_i,v,Ed · s / (b_i · c_i)" : "F_i,v,Ed · s / b_i")
      .step("resistance along an edge", "F_f,Rd,e", racking.fastener_resistance_n, "N",
            racking.method_a ? "1.2 · F_f,Rd, 9.2.4.2(5)" : "F_f,Rd")
      .table(mode_table(face))
      .table(distance_table(rules))
      .drawing(edge_detail(face))
      .note(
          "Round wire or screws up to 6 mm with a head of at least 2 · d, no predrilled holes. Without a declared "
          "withdrawal capacity (Panel_Fastener.WithdrawalCapacity) the rope effect is 0. Distances are those the "
          "export "
          "declares, not measured; d in them is the nominal diameter.");
  const auto broken = std::find_if(rules.begin(), rules.end(), [](const DistanceRule& rule) { return !rule.kept(); });
  if (broken != rules.end()) {
    const double value_mm = millimetres_from_metres(broken->value_m);
    return builder.judge(value_mm, "mm", broken->at_least ? Relation::at_least : Relation::at_most,
                         millimetres_from_metres(broken->limit_m),
                         broken->name + " is not kept (" + broken->clause + ")");
  }
  return builder.judge(racking.fastener_load_n, "N", Relation::at_most, racking.fastener_resistance_n,
                       "the force on a fastener exceeds its resistance");
}

}  // namespace panel_dossier::structural
