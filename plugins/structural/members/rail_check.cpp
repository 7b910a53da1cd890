#include "plugins/structural/members/rail_check.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "core/api/support/tolerances.h"
#include "core/api/support/units.h"
#include "plugins/structural/fixings/fastener_parts.h"
#include "plugins/structural/members/cross_member.h"
#include "plugins/structural/studs/stud_reaction.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

using units::millimetres_from_metres;

/// Widest distance between neighbouring members that reach up to a rail; 0 where fewer than two do.
double widest_spacing_under_m(const StudDesign& design, const Box3& rail) {
  std::optional<double> last_m;
  double widest_m = 0.0;
  for (const VerticalMember& member : design.framing.members) {
    if (std::abs(member.top_m - rail.min.z) > tolerance::kMembrane_m) continue;
    if (last_m) widest_m = std::max(widest_m, member.x_m - *last_m);
    last_m = member.x_m;
  }
  return widest_m;
}

/// Moment and shear of a rail between two fixings under forces from studs at their spacing: for the moment one in the
/// middle, for the shear one beside a fixing; never less than under the same load spread evenly.
CrossForces wind_on_rail(double force_n, double line_load_n_per_m, double stud_spacing_m, double fixing_spacing_m) {
  const double e = fixing_spacing_m;
  double moment_nm = force_n * e / 4.0;
  double shear_n = force_n;
  for (int i = 1; stud_spacing_m > 0.0 && i * stud_spacing_m < e; ++i) {
    const double away_m = i * stud_spacing_m;
    moment_nm += force_n * std::max(0.0, e / 2.0 - away_m);
    shear_n += force_n * (1.0 - away_m / e);
  }
  CrossForces forces;
  forces.wind_moment_nm = std::max(moment_nm, line_load_n_per_m * e * e / 8.0);
  forces.wind_shear_n = std::max(shear_n, line_load_n_per_m * e / 2.0);
  return forces;
}

struct RailCase {
  CrossMember rail;
  Combination combination;
  Sourced<double> modification_factor;
  double stud_force_n = 0.0;
  double line_load_n_per_m = 0.0;
  CrossForces forces;
  CrossVerification verification;

  double utilisation() const { return std::max(verification.bending, verification.shear); }
};

struct RailCases {
  std::vector<RailCase> cases;
  std::vector<std::string> missing;
};

RailCases rail_cases(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                     const StudDesign& design, const StudReaction& stud, double fixing_spacing_m) {
  RailCases all;
  Actions actions;  // per metre of wall
  actions.permanent_n = design.basis.permanent_n_per_m;
  actions.variable_n = design.basis.variable_n_per_m;
  actions.wind_n_per_m = design.basis.wind_pressure_pa;
  if (design.basis.balustrade) actions.barrier_n = design.basis.balustrade->n_per_m;
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    if (panel.parts[i].kind != PartKind::rail) continue;
    const auto rail = cross_member(panel, i, project, settings, tables, design.basis.annex, all.missing);
    if (!rail) continue;
    const bool head = panel.parts[i].bounds->max.z >= panel.height_m.value - rail->height_m / 2.0;
    for (const Combination& combination : combinations(actions, design.basis.factors)) {
      const auto factor = modification_factor(tables, rail->material, combination.duration);
      if (!factor) {
        all.missing.push_back("no modification factor for load duration " + combination.duration);
        continue;
      }
      RailCase result{*rail, combination, *factor, 0.0, 0.0, {}, {}};
      result.line_load_n_per_m =
          combination.line_load_n_per_m * stud.per_line_load_m + combination.barrier_n * stud.barrier_share;
      result.stud_force_n = result.line_load_n_per_m * stud.width_m;
      result.forces = wind_on_rail(result.stud_force_n, result.line_load_n_per_m, stud.spacing_m, fixing_spacing_m);
      if (head) {
        const double s = widest_spacing_under_m(design, *panel.parts[i].bounds);
        result.forces.vertical_moment_nm = combination.axial_n * s * s / 8.0;
        result.forces.vertical_shear_n = combination.axial_n * s / 2.0;
      }
      result.verification = verify_cross_member(result.rail, factor->value, design.basis.crack_factor, result.forces);
      all.cases.push_back(std::move(result));
    }
  }
  if (all.cases.empty() && all.missing.empty()) all.missing.emplace_back("the panel has no rails (IfcMember PLATE)");
  return all;
}

void add_rail_inputs(FindingBuilder& builder, const Panel& panel, const RailCase& worst) {
  const Part& part = panel.parts[worst.rail.part];
  builder.text("governing rail", Sourced<std::string>{part.name, part.origin}, {});
  const auto size = [&](const char* name, const char* symbol, double value_m) {
    builder.number(name, symbol, "mm", Sourced<double>{millimetres_from_metres(value_m), part.origin}, {});
  };
  size("height of the section", "h", worst.rail.height_m);
  size("width of the section through the wall", "b", worst.rail.depth_m);
  add_inputs(builder, worst.rail.material.inputs);
  add_strength(builder, "bending strength", "f_m,k", worst.rail.material.timber.bending_pa);
  add_strength(builder, "shear strength", "f_v,k", worst.rail.material.timber.shear_pa);
  builder.number("modification factor", "k_mod", "", worst.modification_factor, {});
  builder.number("partial factor of the material", "γ_M", "", worst.rail.material.partial_factor, {});
}

void add_rail_steps(FindingBuilder& builder, const StudReaction& stud, const RailCase& worst, double spacing_m) {
  const CrossVerification& v = worst.verification;
  builder
      .step_text("governing combination, EN 1990:2002 6.4.3.2",
                 worst.combination.name + ": " + worst.combination.expression)
      .step("height of wall whose wind comes to a rail", "h_r", stud.per_line_load_m, "m",
            "largest reaction of the studs under 1 kN/m");
  if (stud.barrier_share > 0.0) {
    builder.step("share of persons leaning on the panel that comes to a rail", "k_B", stud.barrier_share, "",
                 "largest reaction of the studs under 1 N at the height of the barrier");
  }
  builder
      .step("design load across the wall along the rail", "w_d", worst.line_load_n_per_m / units::kNewtonPerKilonewton,
            "kN/m", stud.barrier_share > 0.0 ? "w_d = γ · w_k · h_r + γ · q_k · k_B" : "w_d = γ · w_k · h_r")
      .step("force of the hardest pressed stud", "R_d", worst.stud_force_n / units::kNewtonPerKilonewton, "kN",
            "R_d = w_d · b_t")
      .step("force on each fixing", "F_d", worst.line_load_n_per_m * spacing_m / units::kNewtonPerKilonewton, "kN",
            "F_d = w_d · e")
      .step("moment across the wall", "M_z,d", worst.forces.wind_moment_nm / units::kNewtonPerKilonewton, "kNm",
            "stud in the middle: R_d · e / 4 + Σ R_d · (e / 2 − i · s) ≥ w_d · e² / 8")
      .step("moment from the load on the head", "M_y,d", worst.forces.vertical_moment_nm / units::kNewtonPerKilonewton,
            "kNm", "q_d · s² / 8, s: widest between uprights under the head rail; else 0")
      .step("stress from it", "σ_m,z,d", v.wind_stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "σ_m,z,d = 6 · M_z,d / (h · b²)")
      .step("stress from vertical load", "σ_m,y,d", v.vertical_stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "σ_m,y,d = 6 · M_y,d / (b · h²)")
      .step("strength, k_h by the width", "f_m,z,d", v.wind_strength_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "k_h · k_mod · f_m,k / γ_M")
      .step("strength, k_h by the height", "f_m,y,d", v.vertical_strength_pa / units::kPascalPerNewtonPerMm2, "N/mm²")
      .step("bending, (6.11) and (6.12)", "η_m", v.bending, "", "larger sum, k_m = 0.7")
      .step("shear stress, 6.1.7", "τ_d", v.shear_stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "τ_d = 1.5 · √(V_y² + V_z²) / (k_cr · b · h)")
      .step("shear, (6.13)", "η_v", v.shear, "", "τ_d / (k_mod · f_v,k / γ_M)");
}

}  // namespace

std::optional<Sourced<double>> fixing_spacing(const Panel& panel, const Settings& settings) {
  std::optional<Sourced<double>> widest;
  for (const Part& part : panel.parts) {
    if (!holds_panel(part)) continue;
    const auto spacing = part.properties.number("Panel_Fastener", "Spacing");
    if (spacing && (!widest || spacing->value > widest->value)) widest = spacing;
  }
  return widest ? widest : settings.number("structural.fixing_spacing_m");
}

Finding rail_bending(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                     const StudDesign& design) {
  FindingBuilder builder("structural.rail_bending", "Rails between fixings to the frame", panel.global_id,
                         "EN 1995-1-1:2004+A1:2008 6.1.6, 6.1.7");
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  const auto spacing = builder.positive("spacing of the fixings to the frame", "e", "m",
                                        fixing_spacing(panel, settings), kNoFixingSpacing);
  if (!spacing) return builder.not_assessed();
  const StudReaction stud = hardest_stud(design);
  const RailCases all = rail_cases(panel, project, settings, tables, design, stud, *spacing);
  for (const std::string& what : all.missing) builder.missing(what);
  if (builder.incomplete()) return builder.not_assessed();
  const RailCase& worst =
      *std::max_element(all.cases.begin(), all.cases.end(),
                        [](const RailCase& a, const RailCase& b) { return a.utilisation() < b.utilisation(); });
  add_inputs(builder, design.basis.inputs);
  add_rail_inputs(builder, panel, worst);
  add_width_and_span(builder, design, stud.member);
  add_rail_steps(builder, stud, worst, *spacing);
  builder.note(
      "Rails are taken as simple spans between fixings; where the fixings stand to the studs is not in the export, so "
      "a "
      "stud is taken in the middle. The fixings themselves stand under structural.frame_fixings.");
  return builder.judge(worst.utilisation(), "", Relation::at_most, 1.0,
                       "'" + panel.parts[worst.rail.part].name + "' is overloaded between its fixings");
}

}  // namespace panel_dossier::structural
