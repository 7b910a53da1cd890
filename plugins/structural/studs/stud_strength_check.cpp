#include <algorithm>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/units.h"
#include "plugins/structural/racking/racking_checks.h"
#include "plugins/structural/studs/stud_checks.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

template <typename Utilisation>
const StudCase& governing_case(const StudDesign& design, Utilisation utilisation) {
  return *std::max_element(design.cases.begin(), design.cases.end(),
                           [&](const StudCase& a, const StudCase& b) { return utilisation(a) < utilisation(b); });
}

void begin(FindingBuilder& builder, const Panel& panel, const StudDesign& design, const StudCase& result) {
  add_inputs(builder, design.basis.inputs);
  add_member(builder, panel, design, result.member);
  add_factors(builder, design, result);
  add_actions(builder, design, result);
  add_member_notes(builder, design, result.member);
}

/// Largest utilisation of each member over its combinations.
Table utilisation_by_member(const Panel& panel, const StudDesign& design) {
  Table table{"Utilisation of every stud and post",
              {{"member", ""},
               {"at x", "m"},
               {"span", "m"},
               {"width carried", "m"},
               {"bending", ""},
               {"stability", ""},
               {"shear", ""}},
              {}};
  for (std::size_t i = 0; i < design.framing.members.size(); ++i) {
    double bending = 0.0;
    double stability = 0.0;
    double shear = 0.0;
    for (const StudCase& result : design.cases) {
      if (result.member != i) continue;
      bending = std::max(bending, result.bending.utilisation);
      stability = std::max(stability, result.stability.utilisation);
      shear = std::max(shear, result.shear.utilisation);
    }
    const VerticalMember& member = design.framing.members[i];
    table.rows.push_back({member_name(panel, member), member.x_m, design.systems[i].longest_span_m(),
                          member.tributary_width_m, bending, stability, shear});
  }
  return table;
}

Table combination_table(const StudDesign& design, std::size_t member) {
  Table table{"Combinations on the governing member",
              {{"combination", ""}, {"k_mod", ""}, {"N_d", "kN"}, {"M_y,d", "kNm"}, {"bending", ""}, {"stability", ""}},
              {}};
  for (const StudCase& result : design.cases) {
    if (result.member != member) continue;
    table.rows.push_back({result.combination.name, result.modification_factor.value,
                          result.forces.axial_n / units::kNewtonPerKilonewton,
                          result.forces.moment_nm / units::kNewtonPerKilonewton, result.bending.utilisation,
                          result.stability.utilisation});
  }
  return table;
}

/// k (6.27) or (6.28) and kc of one axis, `y` or `z`, after its λ_rel.
void add_buckling(FindingBuilder& builder, const std::string& axis, double relative_slenderness, double straightness,
                  double factor) {
  const std::string slenderness = "λ_rel," + axis;
  const std::string clauses = axis == "y" ? "(6.25)" : "(6.26)";
  if (relative_slenderness <= kNoBuckling) {
    builder.step("buckling factor, 6.3.2(2)", "k_c," + axis, factor, "", "k_c," + axis + " = 1");
    return;
  }
  const double k =
      0.5 * (1.0 + straightness * (relative_slenderness - kNoBuckling) + relative_slenderness * relative_slenderness);
  builder
      .step(axis == "y" ? "k (6.27)" : "k (6.28)", "k_" + axis, k, "",
            "k_" + axis + " = 0.5 · (1 + β_c · (" + slenderness + " − 0.3) + " + slenderness + "²)")
      .step("buckling factor " + clauses, "k_c," + axis, factor, "",
            "k_c," + axis + " = 1 / (k_" + axis + " + √(k_" + axis + "² − " + slenderness + "²))");
}

void add_slenderness(FindingBuilder& builder, const StudDesign& design, const StudCase& result) {
  const StabilityVerification& s = result.stability;
  const Restraint restraint = design.restraint(result.member);
  const bool overhang_governs = restraint.buckling_length_y_m > design.systems[result.member].longest_span_m();
  const std::string length = overhang_governs ? "2 · " + overhang_symbol(design, result.member) : "l";
  const bool outline = design.section(result.member).outline.has_value();
  const std::string radius_y = outline ? "i_y" : "(h / √(12))";
  const std::string radius_z = outline ? "i_z" : "(b / √(12))";
  builder.step("slenderness through the wall", "λ_y", s.slenderness_y, "", "λ_y = " + length + " / " + radius_y)
      .step("relative slenderness (6.21)", "λ_rel,y", s.relative_slenderness_y, "",
            "λ_rel,y = λ_y / π · √(f_c,0,k / E_0,05)")
      .step("straightness factor (6.29)", "β_c", result.resistance.straightness_factor, "");
  add_buckling(builder, "y", s.relative_slenderness_y, result.resistance.straightness_factor, s.buckling_factor_y);
  if (restraint.restrained_along_wall) {
    builder.step_text("buckling along the wall", "prevented by the sheathing on the face of the member");
  } else {
    builder.step("slenderness along the wall", "λ_z", s.slenderness_z, "", "λ_z = " + length + " / " + radius_z)
        .step("relative slenderness (6.22)", "λ_rel,z", s.relative_slenderness_z, "",
              "λ_rel,z = λ_z / π · √(f_c,0,k / E_0,05)");
    add_buckling(builder, "z", s.relative_slenderness_z, result.resistance.straightness_factor, s.buckling_factor_z);
  }
  if (restraint.compression_edge_held) {
    builder.step_text("lateral torsional buckling", "prevented: sheathing on both faces");
    return;
  }
  builder.step("effective length, table 6.1", "l_ef", s.effective_length_m, "m", "l_ef = 0.9 · " + length + " + 2 · h")
      .step("critical bending stress (6.32)", "σ_m,crit", s.critical_bending_stress_pa / units::kPascalPerNewtonPerMm2,
            "N/mm²", "σ_m,crit = 0.78 · b² · E_0,05 / (h · l_ef)")
      .step("relative slenderness in bending (6.30)", "λ_rel,m", s.relative_slenderness_m, "",
            "λ_rel,m = √(f_m,k / σ_m,crit)")
      .step("lateral buckling factor (6.34)", "k_crit", s.lateral_factor, "",
            lateral_factor_formula(s.relative_slenderness_m));
}

void add_sums(FindingBuilder& builder, const StabilityVerification& s, bool restrained_along_wall, bool outline) {
  builder.step("section, (6.19)", "η_19", s.section_sum, "", "η_19 = (σ_c,0,d / f_c,0,d)² + σ_m,y,d / f_m,y,d");
  if (s.strong_axis_sum > 0.0) {
    builder.step("buckling through the wall, (6.23)", "η_23", s.strong_axis_sum, "",
                 "η_23 = σ_c,0,d / (k_c,y · f_c,0,d) + σ_m,y,d / f_m,y,d");
  }
  if (s.weak_axis_sum > 0.0) {
    builder.step(
        outline ? "buckling along the wall, (6.24), with k_m = 1" : "buckling along the wall, (6.24), with k_m = 0.7",
        "η_24", s.weak_axis_sum, "",
        outline ? "η_24 = σ_c,0,d / (k_c,z · f_c,0,d) + σ_m,y,d / f_m,y,d"
                : "η_24 = σ_c,0,d / (k_c,z · f_c,0,d) + 0.7 · σ_m,y,d / f_m,y,d");
  }
  if (s.lateral_sum > 0.0) {
    builder.step("lateral torsional buckling, (6.35)", "η_35", s.lateral_sum, "",
                 "η_35 = (σ_m,y,d / (k_crit · f_m,y,d))² + σ_c,0,d / " +
                     std::string(restrained_along_wall ? "f_c,0,d" : "(k_c,z · f_c,0,d)"));
  }
}

void add_racking_note(FindingBuilder& builder, const StudDesign& design) {
  const bool racked =
      std::any_of(design.cases.begin(), design.cases.end(), [](const StudCase& c) { return c.racking_n > 0.0; });
  if (racked) {
    builder.note(
        "Studs at the ends of the sheathing also take the compression from racking, with wind on the end wall as its "
        "source; that it acts together with all of the wind across the wall is on the safe side.");
  } else if (design.basis.load_bearing) {
    builder.note("No compression from racking is in the studs: " + kRackingCheck.id + " gives none.");
  }
}

/// kv of a notched end, (6.62) with i = 0.
void add_notch_factor(FindingBuilder& builder, const StudDesign& design, const StudCase& result) {
  const Section section = design.section(result.member);
  builder
      .step("share of the depth left at a notched end", "α", section.end_depth_m / section.depth_m, "", "α = h_e / h")
      .step("k_n (6.63)", "k_n", result.resistance.notch_factor, "")
      .step("factor of a notched end (6.62), h in mm", "k_v", result.shear.notched_end, "",
            "k_v = min(1; k_n / (√(h) · (√(α · (1 − α)) + 0.8 · x_e / h · √(1 / α − α²))))");
}

/// The governing member under the loads of its combination, for diagrams.
BeamResult loaded_beam(const StudDesign& design, const StudCase& result) {
  return stud_effects(design.systems[result.member], result.combination.line_load_n_per_m,
                      design.barrier(result.member, result.combination.barrier_n))
      .loaded;
}

/// Supports with what the design loads do at them, for members on more than two.
Table support_table(const StudDesign& design, const StudCase& result) {
  const StudSystem& system = design.systems[result.member];
  const BeamResult loaded = loaded_beam(design, result);
  Table table{"Supports of the governing member under the design loads across it",
              {{"height above the lower end", "m"}, {"reaction", "kN"}, {"moment", "kNm"}},
              {}};
  for (std::size_t i = 0; i < system.supports_m.size(); ++i) {
    table.rows.push_back({system.supports_m[i], loaded.reactions_n[i] / units::kNewtonPerKilonewton,
                          loaded.support_moments_nm[i] / units::kNewtonPerKilonewton});
  }
  return table;
}

}  // namespace

const CheckDeclaration kStudBendingCheck{
    .id = "structural.stud_bending",
    .title = "Bending of studs and posts",
    .project_title = {},
    .sentence =
        "Of all studs and posts under all combinations of EN 1990, the largest share of the design bending "
        "stress about the strong axis in the design bending strength is at most 1.",
    .clause = "EN 1995-1-1:2004+A1:2008 6.1.6",
    .units = {"N/mm²"},
    .kind = CheckKind::limit,
    .inputs = with_parts(with_design_basis({optional_setting("structural.composite_sheathing")})),
    .limits = {"Axial load acts without eccentricity.", "Members side by side are not counted on to share load.",
               "Splices of stacked members are not checked.",
               "Members of several solids or cut at a slant, hardwood and LVL are not assessed."}};

const CheckDeclaration kStudStabilityCheck{
    .id = "structural.stud_stability",
    .title = "Studs and posts in compression and bending",
    .project_title = {},
    .sentence =
        "Of all studs and posts under all combinations of EN 1990, those with compression from racking too, the "
        "largest of the sums (6.19), (6.23), (6.24) and (6.35) is at most 1.",
    .clause = "EN 1995-1-1:2004+A1:2008 6.2.4, 6.3.2, 6.3.3",
    .kind = CheckKind::limit,
    .inputs = with_parts(with_design_basis({property("Panel_Structure.RackingLoad")})),
    .limits = {"Noggings and gypsum boards are not counted as restraint.",
               "That the fixings of a sheet can hold the stud it restrains is not checked.",
               "Sheets do not take part in bending here, also where composite action is asked for."}};

const CheckDeclaration kStudShearCheck{
    .id = "structural.stud_shear",
    .title = "Shear of studs and posts",
    .project_title = {},
    .sentence =
        "Of all studs and posts under all combinations of EN 1990, the largest share of the design shear stress "
        "in the design shear strength is at most 1.",
    .clause = "EN 1995-1-1:2004+A1:2008 6.1.7",
    .units = {"N/mm²"},
    .kind = CheckKind::limit,
    .inputs = with_parts(with_design_basis({})),
    .limits = {"Load near the supports is not left out, which is safe.",
               "A notched end is taken as square and on the side of its support (6.5.2)."}};

Finding stud_bending(const Panel& panel, const StudDesign& design) {
  FindingBuilder builder(kStudBendingCheck, panel.global_id);
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  const StudCase& result = governing_case(design, [](const StudCase& c) { return c.bending.utilisation; });
  begin(builder, panel, design, result);
  add_strength(builder, "bending strength", "f_m,k", design.materials[result.member].timber.bending_pa);
  if (result.composite) {
    add_strength(builder, "tension strength", "f_t,0,k", design.materials[result.member].timber.tension_parallel_pa);
    add_composite_bending(builder, design, result);
  } else {
    add_bending(builder, design, result);
  }
  const StudSystem& system = design.systems[result.member];
  builder.table(utilisation_by_member(panel, design))
      .drawing(load_diagram(system, design.section(result.member).depth_m, result.combination.line_load_n_per_m,
                            design.barrier(result.member, result.combination.barrier_n)))
      .series(moment_diagram(loaded_beam(design, result)));
  if (!system.single_span()) builder.table(support_table(design, result));
  add_doubts(builder, design, result.bending.utilisation);
  return builder.judge(result.bending.stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²", Relation::at_most,
                       result.bending.strength_pa / units::kPascalPerNewtonPerMm2,
                       "bending stress exceeds the bending strength of '" +
                           member_name(panel, design.framing.members[result.member]) + "'");
}

Finding stud_stability(const Panel& panel, const StudDesign& design) {
  FindingBuilder builder(kStudStabilityCheck, panel.global_id);
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  const StudCase& result = governing_case(design, [](const StudCase& c) { return c.stability.utilisation; });
  begin(builder, panel, design, result);
  const TimberClass& timber = design.materials[result.member].timber;
  add_strength(builder, "bending strength", "f_m,k", timber.bending_pa);
  add_strength(builder, "compression strength along the grain", "f_c,0,k", timber.compression_parallel_pa);
  add_strength(builder, "fifth percentile modulus of elasticity", "E_0,05", timber.modulus_fifth_pa);
  add_bending(builder, design, result);
  const StabilityVerification& s = result.stability;
  for (const std::string& what : design.racking_missing) builder.missing(what);
  builder
      .step("compression stress", "σ_c,0,d", s.compression_stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "σ_c,0,d = N_d / (" + area_symbols(design.section(result.member)) + ")")
      .step("compression strength", "f_c,0,d", s.compression_strength_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "f_c,0,d = k_sys · k_mod · f_c,0,k / γ_M");
  add_slenderness(builder, design, result);
  add_sums(builder, s, design.restraint(result.member).restrained_along_wall,
           design.section(result.member).outline.has_value());
  builder.table(combination_table(design, result.member))
      .note(
          "Sheathing is counted where a sheet other than gypsum lies on the face of the member over its whole length; "
          "its fixings must be able to hold the member. Noggings are not counted as restraint.");
  add_racking_note(builder, design);
  if (design.composite.asked) {
    builder.note("Sheets do not take part in bending here: the stud alone carries all of it, on the safe side.");
  }
  add_doubts(builder, design, s.utilisation);
  return builder.judge(s.utilisation, "", Relation::at_most, 1.0,
                       "compression and bending together exceed the resistance of '" +
                           member_name(panel, design.framing.members[result.member]) + "'");
}

Finding stud_shear(const Panel& panel, const StudDesign& design) {
  FindingBuilder builder(kStudShearCheck, panel.global_id);
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  const StudCase& result = governing_case(design, [](const StudCase& c) { return c.shear.utilisation; });
  begin(builder, panel, design, result);
  add_strength(builder, "shear strength", "f_v,k", design.materials[result.member].timber.shear_pa);
  const bool simple = design.systems[result.member].single_span() && result.combination.barrier_n == 0.0;
  const Section section = design.section(result.member);
  const bool at_notch = result.shear.notched_end > 0.0;
  if (at_notch) add_notch_factor(builder, design, result);
  const std::string sheared = at_notch ? "b · h_e" : section.outline ? "A_v" : area_symbols(section);
  builder
      .step(simple ? "design shear force" : "design shear force, the largest of the beam on its supports", "V_d",
            result.forces.shear_n / units::kNewtonPerKilonewton, "kN", simple ? "V_d = w_d · l / 2" : "")
      .step("system factor, 6.6", "k_sys", result.resistance.system_factor, "")
      .step("shear stress", "τ_d", result.shear.stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "τ_d = 1.5 · V_d / (k_cr · " + sheared + ")")
      .step("shear strength", "f_v,d", result.shear.strength_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            at_notch ? "f_v,d = k_v · k_sys · k_mod · f_v,k / γ_M" : "f_v,d = k_sys · k_mod · f_v,k / γ_M")
      .series(shear_diagram(loaded_beam(design, result)))
      .note("Shear near the supports is not reduced.");
  add_doubts(builder, design, result.shear.utilisation);
  return builder.judge(
      result.shear.stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²", Relation::at_most,
      result.shear.strength_pa / units::kPascalPerNewtonPerMm2,
      "shear stress exceeds the shear strength of '" + member_name(panel, design.framing.members[result.member]) + "'");
}

}  // namespace panel_dossier::structural
