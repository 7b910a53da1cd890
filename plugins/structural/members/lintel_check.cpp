#include <algorithm>
#include <map>
#include <utility>

#include "core/api/support/units.h"
#include "plugins/structural/members/lintel_design.h"
#include "plugins/structural/members/members_checks.h"
#include "plugins/structural/studs/stud_checks.h"
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

void add_lintel_inputs(FindingBuilder& builder, const Panel& panel, const LintelCase& result) {
  const TimberClass& timber = result.member.material.timber;
  const Opening& opening = panel.openings[result.opening];
  add_cross_member(builder, panel, "governing member", result.member, result.modification_factor);
  add_strength(builder, "mean modulus of elasticity", "E_0,mean", timber.modulus_mean_pa);
  add_strength(builder, "fifth percentile modulus of elasticity", "E_0,05", timber.modulus_fifth_pa);
  add_strength(builder, "mean shear modulus", "G_mean", timber.shear_modulus_mean_pa);
  builder.number("deformation factor", "k_def", "", result.member.material.deformation_factor, {});
  builder.number("top of the opening above the foot of the panel", "z_o", "m",
                 Sourced<double>{opening.z_max_m, opening.origin}, {});
}

void add_loads(FindingBuilder& builder, const Panel& panel, const StudDesign& design, const LintelCase& result) {
  const DesignBasis& basis = design.basis;
  const FactorSymbols& factors = result.combination.symbols;
  const double weight = weight_above_n_per_m(panel, panel.openings[result.opening], basis);
  const std::string variable = basis.load_bearing ? factored(factors.variable, "Q_k") : std::string();
  builder.step("span, the length of the member", "l", result.span_m, "m")
      .step("weight of the panel above the opening", "g_a", weight / units::kNewtonPerKilonewton, "kN/m",
            "g_a = m · 9.80665 / (B · H) · max(0; H − z_o)")
      .step("permanent load above the opening", "G", (weight + basis.permanent_n_per_m) / units::kNewtonPerKilonewton,
            "kN/m", basis.load_bearing ? "G = g_a + G_k" : "G = g_a")
      .step("share of the vertical load on this member; lintels side by side share it equally", "ρ_v",
            result.vertical_share, "")
      .step(
          "height of wall whose wind comes to this edge of the opening: half of the opening and half of the way to the "
          "next support",
          "h_w", result.wind_strip_m, "m")
      .step("share of that wind on this member", "ρ_w", result.wind_share, "")
      .step_text("governing combination, EN 1990:2002 6.4.3.2",
                 result.combination.name + ": " + result.combination.expression)
      .step("design vertical load on this member", "q_d",
            result.vertical_share * result.combination.axial_n / units::kNewtonPerKilonewton, "kN/m",
            "q_d = ρ_v · (" + sum_of({factored(factors.permanent, "G"), variable}) + ")")
      .step("design wind on this member", "w_d",
            result.wind_share * result.combination.line_load_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            "w_d = ρ_w · (" + sum_of({factored(factors.wind, "w_k · h_w")}) + ")");
}

void add_lateral_steps(FindingBuilder& builder, const LintelCase& result) {
  const LateralBuckling& lateral = result.lateral;
  if (lateral.held) {
    builder.step_text("top edge, 6.3.3", "held over the whole length by a member or sheathing")
        .step("lateral buckling factor (6.34)", "k_crit", lateral.factor, "", "k_crit = 1");
    return;
  }
  builder
      .step("effective length, table 6.1, load on a compression edge that nothing holds", "l_ef",
            lateral.effective_length_m, "m", "l_ef = 0.9 · l + 2 · h")
      .step("critical bending stress (6.32)", "σ_m,crit", lateral.critical_stress_pa / units::kPascalPerNewtonPerMm2,
            "N/mm²", "σ_m,crit = 0.78 · b² · E_0,05 / (h · l_ef)")
      .step("relative slenderness for bending (6.30)", "λ_rel,m", lateral.relative_slenderness, "",
            "λ_rel,m = √(f_m,k / σ_m,crit)")
      .step("lateral buckling factor (6.34)", "k_crit", lateral.factor, "",
            lateral_factor_formula(lateral.relative_slenderness));
}

void add_forces(FindingBuilder& builder, const LintelCase& result) {
  const auto force = [&](const char* name, const char* symbol, double value, const char* unit, const char* formula) {
    builder.step(name, symbol, value / units::kNewtonPerKilonewton, unit, formula);
  };
  force("moment from vertical load", "M_y,d", result.forces.vertical_moment_nm, "kNm", "M_y,d = q_d · l² / 8");
  force("moment from wind", "M_z,d", result.forces.wind_moment_nm, "kNm", "M_z,d = w_d · l² / 8");
  force("shear force from vertical load", "V_y", result.forces.vertical_shear_n, "kN", "V_y = q_d · l / 2");
  force("shear force from wind", "V_z", result.forces.wind_shear_n, "kN", "V_z = w_d · l / 2");
}

/// Bending and shear of a simple span under a line load, in symbols: what 1 N/m does.
std::string bent_by(const char* second_moment) {
  return "(5 · l⁴ / (384 · E_0,mean · " + std::string(second_moment) + ") + 1.2 · l² / (8 · G_mean · b · h))";
}

void add_deflection(FindingBuilder& builder, const DesignBasis& basis, const LintelCase& result, double ratio) {
  const CrossMember& m = result.member;
  const bool imposed = basis.variable_n_per_m > 0.0;
  builder
      .step("second moment of area, vertical load", "I_y", m.upright_modulus_m3() * m.height_m / 2.0 * 1e12, "mm⁴",
            "I_y = b · h³ / 12")
      .step("second moment of area, wind", "I_z", m.across_modulus_m3() * m.depth_m / 2.0 * 1e12, "mm⁴",
            "I_z = h · b³ / 12")
      .step("vertical load above the opening with what creeps of it, 2.2.3", "q_c",
            result.creeping_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            imposed ? "q_c = G + Q_k + k_def · (G + ψ_2,Q · Q_k)" : "q_c = G + k_def · G")
      .step("final deflection from vertical load, 2.2.3", "u_fin",
            millimetres_from_metres(result.vertical_deflection_m), "mm", "u_fin = ρ_v · q_c · " + bent_by("I_y"))
      .step("deflection from wind", "u_w", millimetres_from_metres(result.wind_deflection_m), "mm",
            "u_w = ρ_w · w_k · h_w · " + bent_by("I_z"))
      .step("share of the deflection limit", "η_u", deflection_share(result, ratio), "",
            "η_u = max(u_fin; u_w) · r / l");
}

}  // namespace

const CheckDeclaration kLintelBendingCheck{
    .id = "structural.lintel_bending",
    .title = "Lintels and trimmers over openings",
    .project_title = {},
    .sentence =
        "Of all lintels and trimmers round the openings of a panel under all combinations of EN 1990, the largest "
        "utilisation in bending, in shear or of the limit of deflection is at most 1.",
    .clause = "EN 1995-1-1:2004+A1:2008 6.1.6, 6.1.7, 6.3.3, 7.2",
    .kind = CheckKind::limit,
    .inputs = with_design_basis({optional_setting("structural.deflection_limit_ratio"),
                                 optional_setting("structural.deflection_finish"),
                                 optional_property("Panel_Fire.ProtectionRole"), data_table("deflection_limits.csv")}),
    .limits = {"Lintels and trimmers are simple spans under uniform load.",
               "The joints that pass their ends' forces to the studs are not checked.",
               "The weight of a window on its sill is left out.",
               "Members at or below the height of a barrier load are not assessed."}};

Finding lintel_bending(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                       const StudDesign& design) {
  FindingBuilder builder(kLintelBendingCheck, panel.global_id);
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
  add_lintel_inputs(builder, panel, worst);
  add_loads(builder, panel, design, worst);
  add_lateral_steps(builder, worst);
  add_forces(builder, worst);
  add_cross_verification(builder, worst.member, worst.verification, true);
  add_deflection(builder, design.basis, worst, *ratio);
  builder.table(lintel_table(panel, lintels.cases, *ratio))
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
