#include <algorithm>
#include <optional>
#include <string>

#include "core/api/finding/roles.h"
#include "core/api/support/units.h"
#include "plugins/structural/lifting/lifting_checks.h"
#include "plugins/structural/lifting/lifting_design.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

constexpr double kWholeHeight = 0.9;  ///< share of the panel's height that a stud must reach over
constexpr const char* kTurningDuration = "short";

/// The stud that is bent hardest while the panel is still flat.
struct TurnedStud {
  std::size_t member = 0;
  Sourced<double> modification_factor;
  double line_load_n_per_m = 0.0;
  double moment_nm = 0.0;
  double stress_pa = 0.0;
  double strength_pa = 0.0;

  double use() const { return stress_pa / strength_pa; }
};

TurnedStud turned(const Panel& panel, const StudDesign& design, const LiftingBasis& basis, std::size_t index,
                  const Sourced<double>& modification_factor, double held_m) {
  const VerticalMember& member = design.framing.members[index];
  const TimberClass& timber = design.materials[index].timber;
  const double height_m = panel.height_m.value;
  TurnedStud stud;
  stud.member = index;
  stud.modification_factor = modification_factor;
  stud.line_load_n_per_m = design.basis.factors.permanent_unfavourable * basis.hoisted_n() /
                           (panel.width_m.value * height_m) * member.tributary_width_m;
  stud.moment_nm = turning_moment_nm(stud.line_load_n_per_m, held_m, height_m);
  stud.stress_pa = stud.moment_nm / design.section(index).section_modulus_m3();
  stud.strength_pa = modification_factor.value * section_depth_factor(design.section(index), timber.family) *
                     timber.bending_pa.value / design.materials[index].partial_factor.value;
  return stud;
}

/// Height of the lowest lifting point.
double held_at_m(const Panel& panel, const LiftingBasis& basis) {
  double held_m = panel.height_m.value;
  for (const LiftingPoint& point : basis.points) held_m = std::min(held_m, point.z_m);
  return held_m;
}

void add_turning_inputs(FindingBuilder& builder, const Panel& panel, const StudDesign& design, const TurnedStud& stud) {
  add_member(builder, panel, design, stud.member);
  add_strength(builder, "bending strength", "f_m,k", design.materials[stud.member].timber.bending_pa);
  builder.number("modification factor", "k_mod", "", stud.modification_factor, {});
  builder.number("partial factor of the material", "γ_M", "", design.materials[stud.member].partial_factor, {});
  builder.number("width of the panel", "B", "m", panel.width_m, {});
  builder.number("height of the panel", "H", "m", panel.height_m, {});
}

void add_turning_steps(FindingBuilder& builder, const Panel& panel, const StudDesign& design, const TurnedStud& stud,
                       double held_m) {
  const VerticalMember& member = design.framing.members[stud.member];
  const TimberFamily family = design.materials[stud.member].timber.family;
  const Section section = design.section(stud.member);
  builder.step("partial factor of permanent actions", "γ_G", design.basis.factors.permanent_unfavourable, "")
      .step("width of wall carried", "b_t", member.tributary_width_m, "m")
      .step("weight along the stud", "g_d", stud.line_load_n_per_m / units::kNewtonPerKilonewton, "kN/m",
            "g_d = γ_G · ψ · m · 9.80665 · b_t / (1000 · B · H)")
      .step("from the foot to the lifting points", "l", held_m, "m")
      .step("from there to the head", "a", panel.height_m.value - held_m, "m", "a = H − l")
      .step("moment, panel still flat", "M_d", stud.moment_nm / units::kNewtonPerKilonewton, "kNm",
            "M_d = max(g_d · (l² − a²)² / (8 · l²); g_d · a² / 2)")
      .step("depth factor", "k_h", section_depth_factor(section, family), "",
            section.outline ? "k_h = 1" : depth_factor_formula("k_h", family, "h"))
      .step("strength", "f_m,d", stud.strength_pa / units::kPascalPerNewtonPerMm2, "N/mm²",
            "f_m,d = k_mod · k_h · f_m,k / γ_M");
  add_section_modulus(builder, section);
  builder.step("bending stress", "σ_m,d", stud.stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²", "σ_m,d = M_d / W_y");
}

Finding in_a_frame(FindingBuilder& builder, const Sourced<bool>& frame) {
  builder.logical("turned up in a frame (Panel_Handling.TurningFrame)", frame, {});
  builder.note(
      "The frame holds the panel over its height until it stands upright, so its studs do not bend; the frame is "
      "for its own designer.");
  builder.note(kLiftingCaution);
  builder.step_text("bending of the studs while turned up", "none: the frame carries the panel");
  return builder.inform_text("in a turning frame");
}

}  // namespace

const CheckDeclaration kTurningUpCheck{
    .id = "structural.turning_up",
    .title = "Bending of the studs while the panel is turned up",
    .project_title = {},
    .sentence =
        "Of the studs that reach over the height of the panel, the largest share of the bending stress while it "
        "is turned from lying flat to upright by its lifting points in the design bending strength is at most 1.",
    .clause = "EN 1995-1-1:2004+A1:2008 6.1.6, load duration short",
    .units = {"N/mm²"},
    .kind = CheckKind::limit,
    .inputs = with_model(with_design_basis({optional_property("Panel_Handling.TurningFrame"),
                                            optional_property("Panel_Fastener.WorkingLoadLimit"),
                                            optional_setting("structural.lifting.dynamic_factor")})),
    .limits = {"Sheets are not counted as ribs and the weight is spread evenly.",
               "Splices of stacked studs need their own check.",
               "A panel in a turning frame is not looked at: the frame is for its own designer."},
    .role = std::string(role::kTurningUp)};

Finding turning_up(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                   const StudDesign& design) {
  FindingBuilder builder(kTurningUpCheck, panel.global_id);
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  const auto frame = panel.properties.logical("Panel_Handling", "TurningFrame");
  if (frame && frame->value) return in_a_frame(builder, *frame);
  const LiftingBasis basis = read_lifting_basis(panel, project, settings, builder);
  if (builder.incomplete()) return builder.not_assessed();
  const double height_m = panel.height_m.value;
  const double held_m = held_at_m(panel, basis);
  if (!(held_m > height_m / 2.0)) {
    return builder.not_assessed("a lifting point stands in the lower half, so the panel is not turned up on its foot");
  }
  std::optional<TurnedStud> worst;
  for (std::size_t i = 0; i < design.framing.members.size(); ++i) {
    if (design.framing.members[i].length_m() < kWholeHeight * height_m) continue;
    const auto factor = modification_factor(tables, design.materials[i], kTurningDuration);
    if (!factor) return builder.not_assessed("no modification factor for load duration short");
    const TurnedStud stud = turned(panel, design, basis, i, *factor, held_m);
    if (!worst || stud.use() > worst->use()) worst = stud;
  }
  if (!worst) return builder.not_assessed("no stud or post reaches over the height of the panel");
  add_turning_inputs(builder, panel, design, *worst);
  add_turning_steps(builder, panel, design, *worst, held_m);
  builder.note(
      "The panel is turned about its foot by its lifting points, its weight spread evenly; sheets are not counted as "
      "ribs. "
      "Splices of stacked studs need their own check.");
  builder.note(kLiftingCaution);
  add_doubts(builder, design, worst->use());
  return builder.judge(worst->stress_pa / units::kPascalPerNewtonPerMm2, "N/mm²", Relation::at_most,
                       worst->strength_pa / units::kPascalPerNewtonPerMm2,
                       "'" + member_name(panel, design.framing.members[worst->member]) +
                           "' is overstressed while the panel is turned up; stiffen the panel or "
                           "turn it in a frame (Panel_Handling.TurningFrame)");
}

}  // namespace panel_dossier::structural
