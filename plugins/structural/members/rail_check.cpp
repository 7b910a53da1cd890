#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "core/api/support/fastener_kinds.h"
#include "core/api/support/tolerances.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/structural/fixings/fixings_checks.h"
#include "plugins/structural/members/cross_member.h"
#include "plugins/structural/members/members_checks.h"
#include "plugins/structural/studs/stud_design.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

using units::millimetres_from_metres;

/// Whether an upright stands under, on or against this end of a piece of rail.
bool end_held(const Panel& panel, const Box3& piece, double end_m) {
  return std::any_of(panel.parts.begin(), panel.parts.end(), [&](const Part& part) {
    if (!part.bounds || !stands_upright(part)) return false;
    const Box3& box = *part.bounds;
    const bool at_end = box.min.x <= end_m + tolerance::kSameLine_m && box.max.x >= end_m - tolerance::kSameLine_m;
    const bool deep = std::min(box.max.y, piece.max.y) - std::max(box.min.y, piece.min.y) > tolerance::kModelling_m;
    const bool bears = overlap_m(along_wall(box), along_wall(piece)) > tolerance::kModelling_m &&
                       (std::abs(box.max.z - piece.min.z) <= tolerance::kMembrane_m ||
                        std::abs(box.min.z - piece.max.z) <= tolerance::kMembrane_m);
    const bool butts = overlap_m(upright(box), upright(piece)) > tolerance::kModelling_m;
    return at_end && deep && (bears || butts);
  });
}

/// Two pieces of rail that meet end to end away from every upright: a hinge there, one text each.
std::vector<std::string> unheld_joints(const Panel& panel) {
  constexpr double kJointGap_m = 0.1;  // what lies further apart is no joint: the room between is seen by other checks
  std::vector<std::string> found;
  for (const Part& left : panel.parts) {
    if (!is_rail(panel, left)) continue;
    for (const Part& right : panel.parts) {
      if (!is_rail(panel, right)) continue;
      const Box3& a = *left.bounds;
      const Box3& b = *right.bounds;
      const double gap_m = b.min.x - a.max.x;
      const bool end_to_end = gap_m > -tolerance::kSameLine_m && gap_m < kJointGap_m && a.min.x < b.min.x;
      const bool in_line = std::abs(a.centre().z - b.centre().z) < tolerance::kSameLine_m &&
                           std::min(a.max.y, b.max.y) - std::max(a.min.y, b.min.y) > tolerance::kModelling_m;
      if (!end_to_end || !in_line) continue;
      if (end_held(panel, a, a.max.x) && end_held(panel, b, b.min.x)) continue;
      found.push_back("the splice of '" + left.name + "' and '" + right.name + "' at x = " + fixed_text(a.max.x, 3) +
                      " m, where no upright holds both");
    }
  }
  return found;
}

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
  bool head = false;         ///< the load on the head bends it too
  double head_span_m = 0.0;  ///< widest distance of the members under it
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
    if (!is_rail(panel, panel.parts[i])) continue;
    const auto rail = cross_member(panel, i, project, settings, tables, design.basis.annex, all.missing);
    if (!rail) continue;
    const Box3& box = *panel.parts[i].bounds;
    const bool head = box.max.z >= panel.height_m.value - rail->height_m / 2.0;
    for (const Combination& combination : combinations(actions, design.basis.factors)) {
      const auto factor = modification_factor(tables, rail->material, combination.duration);
      if (!factor) {
        all.missing.push_back("no modification factor for load duration " + combination.duration);
        continue;
      }
      RailCase result;
      result.rail = *rail;
      result.combination = combination;
      result.modification_factor = *factor;
      result.head = head;
      result.line_load_n_per_m =
          combination.line_load_n_per_m * stud.per_line_load_m + combination.barrier_n * stud.barrier_share;
      result.stud_force_n = result.line_load_n_per_m * stud.width_m;
      result.forces = wind_on_rail(result.stud_force_n, result.line_load_n_per_m, stud.spacing_m, fixing_spacing_m);
      if (head) {
        const double s = widest_spacing_under_m(design, box);
        result.head_span_m = s;
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

/// Other studs between two fixings with one in the middle (for the moment) or at a fixing (for the shear): a term each.
struct OtherStuds {
  std::string for_moment;
  std::string for_shear;
};

OtherStuds other_studs(double stud_spacing_m, double fixing_spacing_m) {
  OtherStuds terms;
  for (int i = 1; stud_spacing_m > 0.0 && i * stud_spacing_m < fixing_spacing_m; ++i) {
    const std::string away = i == 1 ? "s" : std::to_string(i) + " · s";
    if (i * stud_spacing_m < fixing_spacing_m / 2.0) terms.for_moment += " + e / 2 − " + away;
    terms.for_shear += " + 1 − " + away + " / e";
  }
  return terms;
}

void add_forces_across(FindingBuilder& builder, const DesignBasis& basis, const StudReaction& stud,
                       const RailCase& worst, double spacing_m) {
  const FactorSymbols& factors = worst.combination.symbols;
  const OtherStuds others = other_studs(stud.spacing_m, spacing_m);
  builder.step("height of wall whose wind comes to a rail: the largest reaction of the studs under 1 kN/m", "h_r",
               stud.per_line_load_m, "m");
  if (stud.barrier_share > 0.0) {
    builder.step(
        "share of persons leaning on the panel that comes to a rail: the largest reaction of the studs under 1 N "
        "at the height of the barrier",
        "k_B", stud.barrier_share, "");
  }
  const std::string leaning = basis.balustrade ? factored(factors.barrier, "q_k · k_B") : std::string();
  builder
      .step("design load across the wall along the rail", "w_d", worst.line_load_n_per_m / units::kNewtonPerKilonewton,
            "kN/m", "w_d = " + sum_of({factored(factors.wind, "w_k · h_r"), leaning}))
      .step("force of the hardest pressed stud", "R_d", worst.stud_force_n / units::kNewtonPerKilonewton, "kN",
            "R_d = w_d · b_t")
      .step("force on each fixing", "F_d", worst.line_load_n_per_m * spacing_m / units::kNewtonPerKilonewton, "kN",
            "F_d = w_d · e")
      .step("spacing of that stud to the nearer one beside it", "s", stud.spacing_m, "m")
      .step("moment across the wall, a stud in the middle between fixings", "M_z,d",
            worst.forces.wind_moment_nm / units::kNewtonPerKilonewton, "kNm",
            "M_z,d = max(R_d · (e / 4" + others.for_moment + "); w_d · e² / 8)")
      .step("shear force across the wall, a stud beside a fixing", "V_z",
            worst.forces.wind_shear_n / units::kNewtonPerKilonewton, "kN",
            "V_z = max(R_d · (1" + others.for_shear + "); w_d · e / 2)");
}

void add_forces_down(FindingBuilder& builder, const DesignBasis& basis, const RailCase& worst) {
  const FactorSymbols& factors = worst.combination.symbols;
  if (!worst.head) {
    builder
        .step("moment from the load on the head, of which this rail has none", "M_y,d",
              worst.forces.vertical_moment_nm / units::kNewtonPerKilonewton, "kNm", "M_y,d = 0")
        .step("shear force from it", "V_y", worst.forces.vertical_shear_n / units::kNewtonPerKilonewton, "kN",
              "V_y = 0");
    return;
  }
  const std::string load =
      basis.load_bearing ? sum_of({factored(factors.permanent, "G_k"), factored(factors.variable, "Q_k")}) : "0";
  builder
      .step("design load on the head", "q_d", worst.combination.axial_n / units::kNewtonPerKilonewton, "kN/m",
            "q_d = " + load)
      .step("widest spacing of uprights under the head rail", "s_u", worst.head_span_m, "m")
      .step("moment from the load on the head", "M_y,d", worst.forces.vertical_moment_nm / units::kNewtonPerKilonewton,
            "kNm", "M_y,d = q_d · s_u² / 8")
      .step("shear force from it", "V_y", worst.forces.vertical_shear_n / units::kNewtonPerKilonewton, "kN",
            "V_y = q_d · s_u / 2");
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

const CheckDeclaration kRailBendingCheck{
    .id = "structural.rail_bending",
    .title = "Rails between fixings to the frame",
    .project_title = {},
    .sentence =
        "Of all rails under all combinations of EN 1990, the largest utilisation in bending about both axes or in "
        "shear between two fixings to the frame is at most 1.",
    .clause = "EN 1995-1-1:2004+A1:2008 6.1.6, 6.1.7",
    .kind = CheckKind::limit,
    .inputs = with_parts(with_design_basis(
        {optional_property("Panel_Fastener.Spacing"), optional_setting("structural.fixing_spacing_m")})),
    .limits = {
        "Rails are simple spans between fixings; where the fixings stand to the studs is not known, so a stud is "
        "taken in the middle.",
        "Pieces of a rail may meet at an upright; the joint itself is not checked.",
        "The fixings themselves are not part of this check."}};

Finding rail_bending(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                     const StudDesign& design) {
  FindingBuilder builder(kRailBendingCheck, panel.global_id);
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  const auto spacing = builder.positive("spacing of the fixings to the frame", "e", "m",
                                        fixing_spacing(panel, settings), kNoFixingSpacing);
  if (!spacing) return builder.not_assessed();
  const StudReaction stud = hardest_stud(design);
  const RailCases all = rail_cases(panel, project, settings, tables, design, stud, *spacing);
  for (const std::string& what : all.missing) builder.missing(what);
  for (const std::string& what : unheld_joints(panel)) builder.missing(what);
  if (builder.incomplete()) return builder.not_assessed();
  const RailCase& worst =
      *std::max_element(all.cases.begin(), all.cases.end(),
                        [](const RailCase& a, const RailCase& b) { return a.utilisation() < b.utilisation(); });
  add_inputs(builder, design.basis.inputs);
  add_cross_member(builder, panel, "governing rail", worst.rail, worst.modification_factor);
  const VerticalMember& pressing = design.framing.members[stud.member];
  builder.number(
      "length of the hardest pressed stud", "L", "mm",
      Sourced<double>{millimetres_from_metres(pressing.length_m()), panel.parts[pressing.parts.front()].origin}, {});
  add_width_and_span(builder, design, stud.member);
  builder.step_text("governing combination, EN 1990:2002 6.4.3.2",
                    worst.combination.name + ": " + worst.combination.expression);
  add_forces_across(builder, design.basis, stud, worst, *spacing);
  add_forces_down(builder, design.basis, worst);
  add_cross_verification(builder, worst.rail, worst.verification, false);
  builder.note(
      "Rails are taken as simple spans between fixings; where the fixings stand to the studs is not in the export, so "
      "a "
      "stud is taken in the middle. The fixings themselves stand under " +
      kFrameFixingsCheck.id + ".");
  return builder.judge(worst.utilisation(), "", Relation::at_most, 1.0,
                       "'" + panel.parts[worst.rail.part].name + "' is overloaded between its fixings");
}

}  // namespace panel_dossier::structural
