#include "plugins/structural/studs/composite_report.h"

#include <algorithm>

#include "core/api/support/units.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

using units::millimetres_from_metres;

constexpr double kNm2PerKnm2 = 1e3;

/// Index of the layer as annex B counts: 1 inside, 3 outside.
std::string index_of(const CompositeFace& face) {
  return face.inside ? "1" : "3";
}

void add_face(FindingBuilder& builder, const CompositeFace& face, const CompositeSection& section) {
  const std::string i = index_of(face);
  const std::string where = face.inside ? "inner sheet: " : "outer sheet: ";
  builder
      .step(where + "limit from shear lag, table 9.1", "b_lag," + i, millimetres_from_metres(face.limits.shear_lag_m),
            "mm")
      .step(where + "limit from plate buckling, table 9.1", "b_buc," + i,
            millimetres_from_metres(face.limits.buckling_m), "mm")
      .step(where + "effective width (9.12)", "b_" + i, millimetres_from_metres(face.width_m), "mm",
            "on the stud, and on each side min(b_lag; b_buc) / 2 as far as there is sheet")
      .step(where + "spacing of fasteners over rows on the stud", "s_" + i, millimetres_from_metres(face.spacing_m),
            "mm", face.edge_rows > 0 ? "edges of sheets on the stud: s / rows" : "between the edges of sheets")
      .step(where + "mean density of both members, 7.1(2)", "ρ_m," + i, face.mean_density_kg_per_m3, "kg/m³",
            "√(ρ_m,1 · ρ_m,2)")
      .step(where + "slip modulus, table 7.1", "K_ser," + i, face.slip_modulus_n_per_m / 1e3, "N/mm",
            "nails ρ_m^1.5 · d^0.8 / 30, screws ρ_m^1.5 · d / 23")
      .step(where + "of the ultimate limit state (2.1)", "K_u," + i, kUltimateSlip * face.slip_modulus_n_per_m / 1e3,
            "N/mm", "2 / 3 · K_ser")
      .step(where + "factor of the connection (B.5)", "γ_" + i, section.cooperation[face.layer()], "",
            "1 / (1 + π² · E_i · A_i · s_i / (K_u,i · ℓ²))")
      .step(where + "distance from the neutral axis", "a_" + i,
            millimetres_from_metres(section.distance_m[face.layer()]), "mm");
}

void add_section(FindingBuilder& builder, const CompositeStud& stud, const CompositeSection& section) {
  builder.step("span of annex B, B.1.2", "ℓ", stud.span_m, "m",
               "l; 0.8 · l where continuous, at most 2 · a above the highest support");
  for (const CompositeFace& face : stud.faces) add_face(builder, face, section);
  builder
      .step("distance of the stud from the neutral axis (B.6)", "a_2",
            millimetres_from_metres(section.distance_m[kWeb]), "mm")
      .step("stiffness with K_u, initial (B.1)", "(EI)_ef,u", section.stiffness_nm2 / kNm2PerKnm2, "kNm²",
            "Σ (E_i · I_i + γ_i · E_i · A_i · a_i²)")
      .step("stiffness of the stud alone", "E_2 · I_2", stud.web_modulus_pa * stud.web.second_moment_m4() / kNm2PerKnm2,
            "kNm²");
}

void add_sheet(FindingBuilder& builder, const CompositeStud& stud, const CompositeCheck& check) {
  const CompositeFace& face = stud.faces[check.sheet_face];
  const std::string i = index_of(face);
  builder
      .step("stress at the centre of the sheet (B.7)", "σ_" + i, check.sheet_normal_pa / units::kPascalPerNewtonPerMm2,
            "N/mm²")
      .step("bending stress in the sheet (B.8)", "σ_m," + i, check.sheet_bending_pa / units::kPascalPerNewtonPerMm2,
            "N/mm²")
      .step("strength of the sheet, tension or compression", "f_d",
            check.sheet_strength.normal_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "k_mod,i · min(f_t,k; f_c,k) / γ_M")
      .step("bending strength of the sheet", "f_m,d", check.sheet_strength.bending_pa / units::kPascalPerNewtonPerMm2,
            "N/mm²", "k_mod,i · f_m,k / γ_M")
      .step("sheet", "η_sheet", check.sheet_utilisation, "", "σ_i / f_d + σ_m,i / f_m,d");
}

void add_fastener(FindingBuilder& builder, const StudCase& result, const CompositeCheck& check) {
  builder.step("design shear force", "V_d", result.forces.shear_n / units::kNewtonPerKilonewton, "kN")
      .step("force on a fastener (B.10)", "F_i", check.fastener_load_n, "N",
            "γ_i · E_i · A_i · a_i · s_i · V_d / (EI)_ef")
      .step("resistance of a fastener (8.6), (2.6)", "F_v,Rd", check.fastener_resistance_n, "N",
            "√(k_mod · k_mod,i) · F_v,Rk / γ_M")
      .step("fastener", "η_fastener", check.fastener_utilisation, "", "F_i / F_v,Rd");
}

/// The worst utilisation of each part over a member's combinations.
struct Worst {
  double stud = 0.0;
  double sheet = 0.0;
  double fastener = 0.0;
};

Worst worst_of(const StudDesign& design, std::size_t member) {
  Worst worst;
  for (const StudCase& result : design.cases) {
    if (result.member != member || !result.composite) continue;
    worst.stud = std::max(worst.stud, result.composite->stud_utilisation);
    worst.sheet = std::max(worst.sheet, result.composite->sheet_utilisation);
    worst.fastener = std::max(worst.fastener, result.composite->fastener_utilisation);
  }
  return worst;
}

Table composite_table(const Panel& panel, const StudDesign& design) {
  Table table{"Studs and posts with their sheets",
              {{"member", ""},
               {"at x", "m"},
               {"faces", ""},
               {"(EI)_ef over E_2 · I_2", ""},
               {"stud", ""},
               {"sheet", ""},
               {"fastener", ""}},
              {}};
  for (std::size_t i = 0; i < design.framing.members.size(); ++i) {
    const VerticalMember& member = design.framing.members[i];
    const CompositeStud* stud = design.composite.of(i);
    if (stud == nullptr) {
      table.rows.push_back({member_name(panel, member), member.x_m, "none: " + design.composite.alone[i], 1.0,
                            std::string(), std::string(), std::string()});
      continue;
    }
    const std::string faces = stud->faces.size() == 2 ? "both" : stud->faces.front().inside ? "inner" : "outer";
    const double alone_nm2 = stud->web_modulus_pa * stud->web.second_moment_m4();
    const Worst worst = worst_of(design, i);
    table.rows.push_back({member_name(panel, member), member.x_m, faces,
                          stud->section(1.0, 0.0).stiffness_nm2 / alone_nm2, worst.stud, worst.sheet, worst.fastener});
  }
  return table;
}

void add_notes(FindingBuilder& builder, const StudDesign& design) {
  for (const std::string& note : design.composite.notes) builder.note(note);
  builder.note(
      "Sheets of a wood-based panel count where one piece reaches over the whole stud with its main axis, taken to be "
      "its longer side, along it: to be confirmed. Gypsum boards never count. Mean moduli are used, 2.2.2; wind acts "
      "both ways, so both sheets are held to the limits of compressed flanges. Axial load stays in the stud. Two "
      "sheets that meet on a stud are one flange with two rows of fasteners. The force from racking on the same "
      "fasteners is that of wind along the wall and is not added.");
}

}  // namespace

void add_composite_stiffness(FindingBuilder& builder, const CompositeStud& stud) {
  builder
      .step("stiffness with K_ser, annex B (B.1)", "(EI)_ef", stud.section(1.0, 0.0).stiffness_nm2 / kNm2PerKnm2,
            "kNm²", "Σ (E_i · I_i + γ_i · E_i · A_i · a_i²)")
      .step("its final state, 2.3.2.2", "(EI)_ef,fin", stud.section(1.0, 1.0).stiffness_nm2 / kNm2PerKnm2, "kNm²",
            "E_i / (1 + k_def,i), K_ser / (1 + 2 · √(k_def,1 · k_def,2))")
      .step("creep of the whole", "k_def,ef", stud.creep_factor(), "", "(EI)_ef / (EI)_ef,fin − 1");
}

void add_composite_bending(FindingBuilder& builder, const StudCase& result) {
  const CompositeCheck& check = *result.composite;
  builder
      .step("design moment", "M_y,d", result.forces.moment_nm / units::kNewtonPerKilonewton, "kNm",
            "as of the stud alone")
      .step("share of the load that creeps, 2.2.2(1)", "ψ_2", check.creep, "", "of the action across the stud")
      .step("stiffness in the state that is worse for the stud (B.1)", "(EI)_ef",
            check.stud_state.stiffness_nm2 / kNm2PerKnm2, "kNm²", "with K_u, see structural.composite_action")
      .step("stress at the centre of the stud (B.7)", "σ_2", check.stud_normal_pa / units::kPascalPerNewtonPerMm2,
            "N/mm²", "E_2 · a_2 · M_y,d / (EI)_ef")
      .step("bending stress in the stud (B.8)", "σ_m,2", check.stud_bending_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "0.5 · E_2 · h · M_y,d / (EI)_ef")
      .step("tension strength", "f_t,0,d", result.resistance.tension_design_pa() / units::kPascalPerNewtonPerMm2,
            "N/mm²", "k_sys · k_mod · f_t,0,k / γ_M")
      .step("bending strength", "f_m,y,d", result.bending.strength_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "k_h · k_sys · k_mod · f_m,k / γ_M")
      .step("stud, (6.17)", "η_stud", check.stud_utilisation, "", "σ_2 / f_t,0,d + σ_m,2 / f_m,y,d");
}

Finding composite_action(const Panel& panel, const StudDesign& design) {
  FindingBuilder builder("structural.composite_action", "Studs working together with their sheets", panel.global_id,
                         "EN 1995-1-1:2004+A1:2008 annex B, 7.1, 9.1.2");
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  add_inputs(builder, design.composite.inputs);
  for (const std::string& what : design.composite.missing) builder.missing(what);
  if (builder.incomplete()) {
    builder.note("Until then studs are checked without their sheets.");
    return builder.not_assessed();
  }
  const StudCase* worst = nullptr;
  for (const StudCase& result : design.cases) {
    if (!result.composite) continue;
    if (worst == nullptr || worst->composite->utilisation() < result.composite->utilisation()) worst = &result;
  }
  if (worst == nullptr) return builder.not_assessed("no load acts across a stud that has a sheet fixed to it");
  const CompositeStud& stud = *design.composite.of(worst->member);
  const CompositeCheck& check = *worst->composite;
  add_inputs(builder, design.basis.inputs);
  add_member(builder, panel, design, worst->member);
  const TimberClass& timber = design.materials[worst->member].timber;
  add_strength(builder, "bending strength of the stud", "f_m,k", timber.bending_pa);
  add_strength(builder, "tension strength of the stud", "f_t,0,k", timber.tension_parallel_pa);
  add_strength(builder, "mean modulus of elasticity of the stud", "E_2", timber.modulus_mean_pa);
  builder.number("mean density of the stud", "ρ_m,2", "kg/m³", timber.density_mean_kg_per_m3, {});
  add_factors(builder, design, *worst);
  builder.step_text("governing combination", worst->combination.name + ": " + worst->combination.expression);
  add_section(builder, stud, check.initial);
  add_composite_bending(builder, *worst);
  add_sheet(builder, stud, check);
  add_fastener(builder, *worst, check);
  add_composite_stiffness(builder, stud);
  builder.table(composite_table(panel, design));
  add_notes(builder, design);
  return builder.judge(check.utilisation(), "", Relation::at_most, 1.0,
                       "stud, sheet or fastener of '" + member_name(panel, design.framing.members[worst->member]) +
                           "' is overloaded when they work together");
}

}  // namespace panel_dossier::structural
