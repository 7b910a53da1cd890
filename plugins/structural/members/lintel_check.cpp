#include "plugins/structural/members/lintel_check.h"

#include <algorithm>
#include <map>
#include <utility>

#include "core/api/support/units.h"
#include "plugins/structural/members/lintel_design.h"
#include "plugins/structural/studs/stud_deflection.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

using units::millimetres_from_metres;

double deflection_share(const LintelCase& result, double ratio) {
  return std::max(result.vertical_deflection_m, result.wind_deflection_m) * ratio / result.span_m;
}

/// The governing combination of each member at each opening.
Table lintel_table(const Panel& panel, const std::vector<LintelCase>& cases, double ratio) {
  Table table{"Lintels and trimmers",
              {{"opening", ""},
               {"member", ""},
               {"span", "m"},
               {"M_y,d", "kNm"},
               {"M_z,d", "kNm"},
               {"bending", ""},
               {"shear", ""},
               {"deflection", ""}},
              {}};
  std::map<std::pair<std::size_t, std::size_t>, const LintelCase*> worst;
  for (const LintelCase& result : cases) {
    const LintelCase*& held = worst[{result.opening, result.member.part}];
    if (held == nullptr || held->utilisation() < result.utilisation()) held = &result;
  }
  for (const auto& [key, result] : worst) {
    table.rows.push_back({panel.openings[key.first].name, panel.parts[key.second].name, result->span_m,
                          result->forces.vertical_moment_nm / units::kNewtonPerKilonewton,
                          result->forces.wind_moment_nm / units::kNewtonPerKilonewton, result->verification.bending,
                          result->verification.shear, deflection_share(*result, ratio)});
  }
  return table;
}

void add_inputs_of(FindingBuilder& builder, const Panel& panel, const LintelCase& result) {
  const Part& part = panel.parts[result.member.part];
  const auto size = [&](const char* name, const char* symbol, double value_m) {
    builder.number(name, symbol, "mm", Sourced<double>{millimetres_from_metres(value_m), part.origin}, {});
  };
  builder.text("governing member", Sourced<std::string>{part.name, part.origin}, {});
  size("height of the section", "h", result.member.height_m);
  size("width of the section through the wall", "b", result.member.depth_m);
  add_inputs(builder, result.member.material.inputs);
  const TimberClass& timber = result.member.material.timber;
  add_strength(builder, "bending strength", "f_m,k", timber.bending_pa);
  add_strength(builder, "shear strength", "f_v,k", timber.shear_pa);
  add_strength(builder, "mean modulus of elasticity", "E_0,mean", timber.modulus_mean_pa);
  add_strength(builder, "fifth percentile modulus of elasticity", "E_0,05", timber.modulus_fifth_pa);
  builder.number("modification factor", "k_mod", "", result.modification_factor, {});
  builder.number("partial factor of the material", "γ_M", "", result.member.material.partial_factor, {});
  builder.number("deformation factor", "k_def", "", result.member.material.deformation_factor, {});
}

void add_load_steps(FindingBuilder& builder, const Panel& panel, const StudDesign& design, const LintelCase& result) {
  const DesignBasis& basis = design.basis;
  const double weight = weight_above_n_per_m(panel, panel.openings[result.opening], basis);
  builder.step("span", "l", result.span_m, "m", "length of the member")
      .step("weight of the panel above the opening", "g_a", weight / units::kNewtonPerKilonewton, "kN/m")
      .step("permanent load above the opening", "G", (weight + basis.permanent_n_per_m) / units::kNewtonPerKilonewton,
            "kN/m", "G = g_a + G_k")
      .step("share of the vertical load on this member", "ρ_v", result.vertical_share, "",
            "lintels side by side share it equally")
      .step("height of wall whose wind comes to this edge of the opening", "h_w", result.wind_strip_m, "m",
            "half of the opening and half of the way to the next support")
      .step("share of that wind on this member", "ρ_w", result.wind_share, "")
      .step_text("governing combination, EN 1990:2002 6.4.3.2",
                 result.combination.name + ": " + result.combination.expression)
      .step("design vertical load on this member", "q_d",
            result.vertical_share * result.combination.axial_n / units::kNewtonPerKilonewton, "kN/m")
      .step("design wind on this member", "w_d",
            result.wind_share * result.combination.line_load_n_per_m / units::kNewtonPerKilonewton, "kN/m");
}

void add_lateral_steps(FindingBuilder& builder, const LintelCase& result) {
  const LateralBuckling& lateral = result.lateral;
  if (lateral.held) {
    builder.step_text("top edge, 6.3.3", "held over the whole length by a member or sheathing");
  } else {
    builder
        .step("effective length, table 6.1", "l_ef", lateral.effective_length_m, "m",
              "0.9 · l + 2 · h, load on a compression edge that nothing holds")
        .step("critical bending stress (6.32)", "σ_m,crit", lateral.critical_stress_pa / units::kPascalPerNewtonPerMm2,
              "N/mm²", "0.78 · b² · E_0,05 / (h · l_ef)")
        .step("relative slenderness for bending (6.30)", "λ_rel,m", lateral.relative_slenderness, "",
              "√(f_m,k / σ_m,crit)");
  }
  builder.step("lateral buckling factor (6.34)", "k_crit", lateral.factor, "");
}

void add_verification(FindingBuilder& builder, const LintelCase& result) {
  const CrossVerification& v = result.verification;
  builder
      .step("moment from vertical load", "M_y,d", result.forces.vertical_moment_nm / units::kNewtonPerKilonewton, "kNm",
            "q_d · l² / 8")
      .step("moment from wind", "M_z,d", result.forces.wind_moment_nm / units::kNewtonPerKilonewton, "kNm",
            "w_d · l² / 8")
      .step("stress from vertical load", "σ_m,y,d", v.vertical_stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "σ_m,y,d = 6 · M_y,d / (b · h²)")
      .step("stress from wind", "σ_m,z,d", v.wind_stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "σ_m,z,d = 6 · M_z,d / (h · b²)")
      .step("strength, k_h by the height", "f_m,y,d", v.vertical_strength_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "k_crit · k_h · k_mod · f_m,k / γ_M, (6.33)")
      .step("strength, k_h by the width", "f_m,z,d", v.wind_strength_pa / units::kPascalPerNewtonPerMm2, "N/mm²")
      .step("bending, (6.11) and (6.12)", "η_m", v.bending, "", "larger sum, k_m = 0.7")
      .step("shear stress, 6.1.7", "τ_d", v.shear_stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "τ_d = 1.5 · √(V_y² + V_z²) / (k_cr · b · h)")
      .step("shear, (6.13)", "η_v", v.shear, "", "τ_d / (k_mod · f_v,k / γ_M)")
      .step("final deflection from vertical load, 2.2.3", "u_fin",
            millimetres_from_metres(result.vertical_deflection_m), "mm",
            "u_inst + k_def · u_qp, with deflection from shear")
      .step("deflection from wind", "u_w", millimetres_from_metres(result.wind_deflection_m), "mm");
}

}  // namespace

Finding lintel_bending(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                       const StudDesign& design) {
  FindingBuilder builder("structural.lintel_bending", "Lintels and trimmers over openings", panel.global_id,
                         "EN 1995-1-1:2004+A1:2008 6.1.6, 6.1.7, 6.3.3, 7.2");
  const auto ratio = deflection_ratio(builder, settings, tables);
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  if (builder.incomplete()) return builder.not_assessed();
  const LintelDesign lintels = design_lintels(panel, project, settings, tables, design);
  for (const std::string& what : lintels.missing) builder.missing(what);
  for (const std::string& name : barrier_members(panel, lintels, design.basis)) {
    builder.missing(
        "'" + name +
        "' under persons leaning on the panel (Panel_Structure.BarrierHeight lies above it): the structural "
        "engineer must check it");
  }
  if (builder.incomplete()) return builder.not_assessed();
  const auto use = [&](const LintelCase& c) { return std::max(c.utilisation(), deflection_share(c, *ratio)); };
  const LintelCase& worst =
      *std::max_element(lintels.cases.begin(), lintels.cases.end(),
                        [&](const LintelCase& a, const LintelCase& b) { return use(a) < use(b); });
  add_inputs(builder, design.basis.inputs);
  add_inputs_of(builder, panel, worst);
  add_load_steps(builder, panel, design, worst);
  add_lateral_steps(builder, worst);
  add_verification(builder, worst);
  builder.step("share of the deflection limit", "η_u", deflection_share(worst, *ratio), "", "u · ratio / l")
      .table(lintel_table(panel, lintels.cases, *ratio))
      .note(
          "Simple spans under uniform load; the studs beside an opening take half of its width in the checks of studs. "
          "A "
          "trimmer takes the wind where there is one, the lintels the vertical load. The joints that pass the ends' "
          "forces to the studs and the weight of a window on its sill are not checked here.");
  return builder.judge(use(worst), "", Relation::at_most, 1.0,
                       "'" + panel.parts[worst.member.part].name + "' at opening '" +
                           panel.openings[worst.opening].name + "' is overloaded or bends too far");
}

}  // namespace panel_dossier::structural
