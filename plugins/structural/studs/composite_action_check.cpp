#include <algorithm>

#include "core/api/support/units.h"
#include "plugins/structural/studs/stud_checks.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

using units::millimetres_from_metres;

/// What acts along a sheet per unit of strain, in symbols: γ_i · E_i · A_i.
std::string stretch(const CompositeFace& face) {
  const std::string i = face.index();
  return "γ_" + i + " · E_" + i + " · b_" + i + " · t_1," + i;
}

/// From the centre of a sheet to that of the stud.
std::string apart(const CompositeFace& face) {
  return "(t_1," + face.index() + " + h) / 2";
}

void add_face(FindingBuilder& builder, const CompositeFace& face, const CompositeSection& section) {
  const std::string i = face.index();
  const std::string where = face.inside ? "inner sheet: " : "outer sheet: ";
  const std::string slip = face.screws ? "K_ser," + i + " = ρ_m," + i + "^1.5 · d," + i + " / 23"
                                       : "K_ser," + i + " = ρ_m," + i + "^1.5 · d," + i + "^0.8 / 30";
  builder
      .step(where + "limit from shear lag, table 9.1", "b_lag," + i, millimetres_from_metres(face.limits.shear_lag_m),
            "mm")
      .step(where + "limit from plate buckling, table 9.1", "b_buc," + i,
            millimetres_from_metres(face.limits.buckling_m), "mm")
      .step(where +
                "effective width (9.12): on the stud, and on each side half of the smaller limit as far as there is "
                "sheet",
            "b_" + i, millimetres_from_metres(face.width_m), "mm")
      .step(where + (face.edge_rows > 0 ? "spacing of fasteners along edges over the rows on the stud"
                                        : "spacing of fasteners between the edges"),
            "s_" + i, millimetres_from_metres(face.spacing_m), "mm")
      .step(where + "mean density of both members, 7.1(2)", "ρ_m," + i, face.mean_density_kg_per_m3, "kg/m³",
            "ρ_m," + i + " = √(ρ_s," + i + " · ρ_s,2)")
      .step(where + "slip modulus, table 7.1", "K_ser," + i, face.slip_modulus_n_per_m / 1e3, "N/mm", slip)
      .step(where + "of the ultimate limit state (2.1)", "K_u," + i, kUltimateSlip * face.slip_modulus_n_per_m / 1e3,
            "N/mm", "K_u," + i + " = 2 / 3 · K_ser," + i)
      .step(where + "factor of the connection (B.5)", "γ_" + i, section.cooperation[face.layer()], "",
            "γ_" + i + " = 1 / (1 + π² · E_" + i + " · b_" + i + " · t_1," + i + " · s_" + i + " / (K_u," + i +
                " · ℓ²))");
}

/// Distances from the neutral axis, (B.6), and what the section does with K_u.
void add_section(FindingBuilder& builder, const CompositeStud& stud, const CompositeSection& section) {
  builder.step("span of annex B, B.1.2: 0.8 of the shortest where continuous, at most twice an overhang", "ℓ",
               stud.span_m, "m");
  std::string moments;
  std::string stretches = "E_2 · b · h";
  std::string stiffness = "E_2 · b · h³ / 12 + E_2 · b · h · a_2²";
  for (const CompositeFace& face : stud.faces) {
    add_face(builder, face, section);
    const std::string i = face.index();
    moments.append(face.inside ? "" : moments.empty() ? "−" : " − ").append(stretch(face)).append(" · ");
    moments.append(apart(face));
    stretches.append(" + ").append(stretch(face));
    stiffness.append(" + E_").append(i).append(" · b_").append(i).append(" · t_1,").append(i).append("³ / 12 + ");
    stiffness.append(stretch(face)).append(" · a_").append(i).append("²");
  }
  builder.step("distance of the stud from the neutral axis (B.6)", "a_2",
               millimetres_from_metres(section.distance_m[kWeb]), "mm",
               "a_2 = (" + moments + ") / (" + stretches + ")");
  for (const CompositeFace& face : stud.faces) {
    builder.step(std::string(face.inside ? "inner" : "outer") + " sheet: distance from the neutral axis",
                 "a_" + face.index(), millimetres_from_metres(section.distance_m[face.layer()]), "mm",
                 "a_" + face.index() + " = " + apart(face) + (face.inside ? " − a_2" : " + a_2"));
  }
  builder
      .step("stiffness with K_u, initial (B.1)", "EI_ef,u", section.stiffness_nm2 / kNm2PerKnm2, "kN·m²",
            "EI_ef,u = " + stiffness)
      .step("stiffness of the stud alone", "EI_2", stud.web_modulus_pa * stud.web.second_moment_m4() / kNm2PerKnm2,
            "kN·m²", "EI_2 = E_2 · b · h³ / 12");
}

void add_sheet(FindingBuilder& builder, const CompositeStud& stud, const CompositeCheck& check) {
  const std::string i = stud.faces[check.sheet_face].index();
  builder
      .step("stress at the centre of the sheet in its worse state (B.7)", "σ_" + i,
            check.sheet_normal_pa / units::kPascalPerNewtonPerMm2, "N/mm²")
      .step("bending stress in the sheet (B.8)", "σ_m," + i, check.sheet_bending_pa / units::kPascalPerNewtonPerMm2,
            "N/mm²")
      .step("strength of the sheet, the smaller of tension and compression, for the duration of the combination", "f_d",
            check.sheet_strength.normal_pa / units::kPascalPerNewtonPerMm2, "N/mm²")
      .step("bending strength of the sheet, likewise", "f_m,d",
            check.sheet_strength.bending_pa / units::kPascalPerNewtonPerMm2, "N/mm²")
      .step("sheet", "η_sheet", check.sheet_utilisation, "", "η_sheet = σ_" + i + " / f_d + σ_m," + i + " / f_m,d");
}

void add_fastener(FindingBuilder& builder, const StudCase& result, const CompositeCheck& check) {
  builder.step("design shear force", "V_d", result.forces.shear_n / units::kNewtonPerKilonewton, "kN")
      .step("force on a fastener in the worse state (B.10)", "F_i", check.fastener_load_n, "N")
      .step("resistance of a fastener (8.6), with k_mod of stud and sheet by (2.6)", "F_v,Rd",
            check.fastener_resistance_n, "N")
      .step("fastener", "η_fastener", check.fastener_utilisation, "", "η_fastener = F_i / F_v,Rd");
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

const CheckDeclaration kCompositeActionCheck{
    .id = "structural.composite_action",
    .title = "Studs working together with their sheets",
    .project_title = {},
    .sentence =
        "Of all studs with sheets of a wood-based panel fixed to them, the largest utilisation of stud, sheet and "
        "fastener by the method of annex B, in its initial and its final state, is at most 1.",
    .clause = "EN 1995-1-1:2004+A1:2008 annex B, 7.1, 9.1.2",
    .kind = CheckKind::limit,
    .inputs = with_parts(with_design_basis(
        {optional_setting("structural.composite_sheathing"), property("Panel_Board.ProductStandard"),
         property("Panel_Fastener.Diameter"), property("Panel_Fastener.Length"), property("Panel_Fastener.Spacing"),
         property("Panel_Fastener.EdgeDistance"), property("Panel_Fastener.TensileStrength"),
         optional_property("Panel_Fastener.IntermediateSpacing"), optional_property("Panel_Fastener.Shank"),
         optional_property("Panel_Fastener.RootDiameter"), optional_property("Panel_Fastener.SmoothShankLength"),
         optional_property("Panel_Fastener.WithdrawalCapacity"), optional_property("Panel_Board.CharacteristicDensity"),
         optional_property("Panel_Fire.ProtectionRole"), data_table("panel_products.csv")})),
    .limits = {"That the main axis of a sheet is its longer side must be confirmed.",
               "The force from racking on the same fasteners is not added.",
               "Joints of sheets across a stud, stacked "
               "studs and studs wholly above the highest support are left without sheets.",
               "Gypsum boards never count."}};

Finding composite_action(const Panel& panel, const StudDesign& design) {
  FindingBuilder builder(kCompositeActionCheck, panel.global_id);
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
  builder.number("mean density of the stud", "ρ_s,2", "kg/m³", timber.density_mean_kg_per_m3, {});
  add_factors(builder, design, *worst);
  add_actions(builder, design, *worst);
  add_section(builder, stud, check.initial);
  add_composite_bending(builder, design, *worst);
  add_sheet(builder, stud, check);
  add_fastener(builder, *worst, check);
  add_composite_stiffness(builder, stud);
  builder.table(composite_table(panel, design));
  add_notes(builder, design);
  add_doubts(builder, design, check.utilisation());
  return builder.judge(check.utilisation(), "", Relation::at_most, 1.0,
                       "stud, sheet or fastener of '" + member_name(panel, design.framing.members[worst->member]) +
                           "' is overloaded when they work together");
}

}  // namespace panel_dossier::structural
