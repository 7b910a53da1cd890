#include "plugins/structural/lifting/lifting_check.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "core/api/support/fixed_text.h"
#include "core/api/support/units.h"
#include "plugins/structural/lifting/lifting_basis.h"
#include "plugins/structural/lifting/lifting_statics.h"
#include "plugins/structural/studs/stud_report.h"

namespace panel_dossier::structural {

namespace {

constexpr double kMostSlingAngle_deg = 60.0;

struct Hanging {
  LiftingBasis basis;
  double angle_rad = 0.0;
  bool equalised = false;
  std::vector<double> reactions_n;

  double leg_n(std::size_t point) const { return leg_force_n(reactions_n[point], angle_rad); }
  double utilisation(std::size_t point) const { return leg_n(point) / basis.points[point].working_load_limit_n; }
};

Hanging hang(const Panel& panel, const Project& project, const Settings& settings, FindingBuilder& builder) {
  Hanging hanging;
  hanging.basis = read_lifting_basis(panel, project, settings, builder);
  const auto angle = builder.number("angle of the slings from the vertical", "β", "°",
                                    settings.number("structural.lifting.sling_angle_deg"),
                                    "setting 'structural.lifting.sling_angle_deg' is missing");
  if (angle && !(*angle >= 0.0 && *angle < kMostSlingAngle_deg)) {
    builder.missing("setting 'structural.lifting.sling_angle_deg' must be at least 0 and below 60");
  }
  const auto equalised =
      builder.logical("load equalised between the points", settings.logical("structural.lifting.equalised"),
                      "setting 'structural.lifting.equalised' is missing");
  if (builder.incomplete()) return hanging;
  hanging.angle_rad = units::radians_from_degrees(*angle);
  hanging.equalised = *equalised;
  std::vector<double> x;
  for (const LiftingPoint& point : hanging.basis.points) x.push_back(point.x_m);
  for (std::size_t i = 0; i + 1 < x.size(); ++i) {
    if (x[i + 1] - x[i] < 0.001) builder.missing("two lifting points stand at the same place along the panel");
  }
  if (builder.incomplete()) return hanging;
  hanging.reactions_n = lifting_reactions_n(x, hanging.basis.centre.x, hanging.basis.hoisted_n(), hanging.equalised);
  if (hanging.reactions_n.empty()) {
    builder.missing("the centre of gravity does not hang between the lifting points; place them on both sides of it");
  }
  return hanging;
}

Table point_table(const Hanging& hanging) {
  Table table{"Lifting points, from the left seen from inside",
              {{"point", ""}, {"x", "m"}, {"R_d", "kN"}, {"pull F_d", "kN"}, {"WLL", "kN"}, {"F_d/WLL", ""}},
              {}};
  for (std::size_t i = 0; i < hanging.basis.points.size(); ++i) {
    const LiftingPoint& point = hanging.basis.points[i];
    table.rows.push_back({point.part->name, point.x_m, hanging.reactions_n[i] / units::kNewtonPerKilonewton,
                          hanging.leg_n(i) / units::kNewtonPerKilonewton,
                          point.working_load_limit_n / units::kNewtonPerKilonewton, hanging.utilisation(i)});
  }
  return table;
}

/// Panel, points with their slings, and the centre of gravity.
Drawing lifting_drawing(const Panel& panel, const Hanging& hanging) {
  const double width = panel.width_m.value;
  const double height = panel.height_m.value;
  const double sling = std::max(0.6, 0.25 * height);
  Drawing drawing;
  drawing.title = "Lifting, seen from inside";
  drawing.polygons.push_back(
      {{{0.0, 0.0}, {width, 0.0}, {width, height}, {0.0, height}}, Hatch::none, LineStyle::heavy, ""});
  for (const Opening& opening : panel.openings) {
    drawing.polygons.push_back({{{opening.x_min_m, opening.z_min_m},
                                 {opening.x_max_m, opening.z_min_m},
                                 {opening.x_max_m, opening.z_max_m},
                                 {opening.x_min_m, opening.z_max_m}},
                                Hatch::none,
                                LineStyle::thin,
                                ""});
  }
  double last = 0.0;
  for (std::size_t i = 0; i < hanging.basis.points.size(); ++i) {
    const double x = hanging.basis.points[i].x_m;
    const double lean = x < hanging.basis.centre.x ? 1.0 : -1.0;
    drawing.lines.push_back(
        {{x, height}, {x + lean * sling * std::tan(hanging.angle_rad), height + sling}, LineStyle::normal});
    drawing.texts.push_back(
        {{x, height + 0.5 * sling}, fixed_text(hanging.leg_n(i) / units::kNewtonPerKilonewton, 1) + " kN"});
    drawing.dimensions.push_back({{last, 0.0}, {x, 0.0}, -0.25, ""});
    last = x;
  }
  drawing.dimensions.push_back({{last, 0.0}, {width, 0.0}, -0.25, ""});
  drawing.lines.push_back({{hanging.basis.centre.x, 0.0}, {hanging.basis.centre.x, height}, LineStyle::centre});
  drawing.texts.push_back({{hanging.basis.centre.x, hanging.basis.centre.z}, "G"});
  return drawing;
}

/// Force on each screw of the hardest pulled point, where the export says how many there are.
void add_screws(const Hanging& hanging, std::size_t worst, FindingBuilder& builder) {
  builder.note(
      "The working load limit must hold for the fitting that is used, its screws in this timber included; swing at the "
      "stop "
      "wind has no limit of its own.");
  const Part& part = *hanging.basis.points[worst].part;
  const auto screws = part.properties.number("Panel_Fastener", "ScrewsPerPiece");
  if (!screws || screws->value < 1.0) return;
  builder.number("screws of one point", "n", "", screws, {});
  builder.step("force on one screw", "F_1", hanging.leg_n(worst) / screws->value / units::kNewtonPerKilonewton, "kN",
               "F_1 = F_d / n");
}

/// How far the panel swings and hangs out of plumb.
void add_attitude(const Panel& panel, const Hanging& hanging, const Settings& settings, const Tables& tables,
                  FindingBuilder& builder) {
  double y = 0.0;
  double z = 0.0;
  for (const LiftingPoint& point : hanging.basis.points) {
    y += point.y_m / static_cast<double>(hanging.basis.points.size());
    z += point.z_m / static_cast<double>(hanging.basis.points.size());
  }
  const double drop = z - hanging.basis.centre.z;
  if (drop > 0.0) {
    builder.step("hangs out of plumb by", "α",
                 units::degrees_from_radians(std::atan2(hanging.basis.centre.y - y, drop)), "°",
                 "tan α = (y_G − y_points) / (z_points − z_G)");
  }
  const auto stop = settings.number("structural.lifting.stop_wind_m_per_s");
  const auto coefficient = tables.lifting_factors.number("sign board", "factor");
  if (!stop || !coefficient || !(stop->value > 0.0)) {
    builder.note("No wind on the hanging panel: setting 'structural.lifting.stop_wind_m_per_s' is missing.");
    return;
  }
  builder.number("wind speed at which lifting stops", "v", "m/s", stop, {});
  builder.number("force coefficient of a flat board", "c_f", "", coefficient, {});
  constexpr double kAirDensity_kg_per_m3 = 1.25;
  const double force = 0.5 * kAirDensity_kg_per_m3 * stop->value * stop->value * coefficient->value *
                       panel.width_m.value * panel.height_m.value;
  builder.step("wind on the panel at that speed", "F_w", force / units::kNewtonPerKilonewton, "kN",
               "F_w = 0.5 · 1.25 · v² · c_f · b · h");
  builder.step("it swings out by", "",
               units::degrees_from_radians(std::atan2(force, hanging.basis.mass_kg * units::kStandardGravity_m_per_s2)),
               "°", "tan = F_w / (m · g)");
}

}  // namespace

Finding lifting(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables) {
  FindingBuilder builder(
      "structural.lifting", "Pull in the hardest pulled lifting point", panel.global_id,
      "Statics of a hanging rigid body; working load limits of the lifting points (common practice)");
  const Hanging hanging = hang(panel, project, settings, builder);
  if (builder.incomplete()) return builder.not_assessed();
  std::size_t worst = 0;
  for (std::size_t i = 1; i < hanging.basis.points.size(); ++i) {
    if (hanging.utilisation(i) > hanging.utilisation(worst)) worst = i;
  }
  builder
      .step("weight on the hook", "G_d", hanging.basis.hoisted_n() / units::kNewtonPerKilonewton, "kN",
            "G_d = ψ · m · g")
      .step("centre of gravity from the left edge", "x_G", hanging.basis.centre.x, "m")
      .step_text("hardest pulled point", hanging.basis.points[worst].part->name)
      .step("its vertical force", "R_d", hanging.reactions_n[worst] / units::kNewtonPerKilonewton, "kN",
            hanging.equalised ? "G_d / n + G_d · e · (x_i − x̄) / Σ(x − x̄)²"
                              : "the worst of any two points that balance G")
      .step("pull in its sling", "F_d", hanging.leg_n(worst) / units::kNewtonPerKilonewton, "kN", "F_d = R_d / cos β")
      .step("push along the head", "H_d",
            hanging.reactions_n[worst] * std::tan(hanging.angle_rad) / units::kNewtonPerKilonewton, "kN",
            "H_d = R_d · tan β");
  add_screws(hanging, worst, builder);
  add_attitude(panel, hanging, settings, tables, builder);
  builder.table(point_table(hanging)).drawing(lifting_drawing(panel, hanging)).note(kLiftingCaution);
  const LiftingPoint& point = hanging.basis.points[worst];
  return builder.judge(hanging.leg_n(worst) / units::kNewtonPerKilonewton, "kN", Relation::at_most,
                       point.working_load_limit_n / units::kNewtonPerKilonewton,
                       "'" + point.part->name +
                           "' is pulled beyond its working load limit; add points, place them nearer to "
                           "the centre of gravity or use steeper slings");
}

Finding turning_up(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                   const StudDesign& design) {
  FindingBuilder builder("structural.turning_up", "Bending of the studs while the panel is turned up", panel.global_id,
                         "EN 1995-1-1:2004+A1:2008 6.1.6, load duration short");
  if (!design.missing.empty()) return not_assessed_studs(builder, design);
  const auto frame = panel.properties.logical("Panel_Handling", "TurningFrame");
  if (frame && frame->value) {
    builder.logical("turned up in a frame (Panel_Handling.TurningFrame)", frame, {});
    builder.note(
        "The frame holds the panel over its height until it stands upright, so its studs do not bend; the frame is "
        "for its own designer.");
    builder.note(kLiftingCaution);
    builder.step_text("bending of the studs while turned up", "none: the frame carries the panel");
    return builder.inform_text("in a turning frame");
  }
  const LiftingBasis basis = read_lifting_basis(panel, project, settings, builder);
  if (builder.incomplete()) return builder.not_assessed();
  const double height = panel.height_m.value;
  double held = height;
  for (const LiftingPoint& point : basis.points) held = std::min(held, point.z_m);
  if (!(held > height / 2.0)) {
    return builder.not_assessed("a lifting point stands in the lower half, so the panel is not turned up on its foot");
  }
  constexpr double kWholeHeight = 0.9;
  constexpr const char* kTurningDuration = "short";
  const double gamma_g = design.basis.factors.permanent_unfavourable;
  std::optional<std::size_t> worst;
  double worst_ratio = 0.0;
  double worst_stress = 0.0;
  double worst_strength = 0.0;
  for (std::size_t i = 0; i < design.framing.members.size(); ++i) {
    const VerticalMember& member = design.framing.members[i];
    if (member.length_m() < kWholeHeight * height) continue;
    const auto factor = modification_factor(tables, design.materials[i], kTurningDuration);
    if (!factor) return builder.not_assessed("no modification factor for load duration short");
    const TimberClass& timber = design.materials[i].timber;
    const double line_load = gamma_g * basis.hoisted_n() / (panel.width_m.value * height) * member.tributary_width_m;
    const double modulus = member.width_m * member.depth_m * member.depth_m / 6.0;
    const double stress = turning_moment_nm(line_load, held, height) / modulus;
    const double strength = factor->value * depth_factor(timber.family, member.depth_m) * timber.bending_pa.value /
                            design.materials[i].partial_factor.value;
    if (worst && stress / strength <= worst_ratio) continue;
    worst = i;
    worst_ratio = stress / strength;
    worst_stress = stress;
    worst_strength = strength;
  }
  if (!worst) return builder.not_assessed("no stud or post reaches over the height of the panel");
  const VerticalMember& member = design.framing.members[*worst];
  const double line_load = gamma_g * basis.hoisted_n() / (panel.width_m.value * height) * member.tributary_width_m;
  add_member(builder, panel, design, *worst);
  builder.number("modification factor", "k_mod", "",
                 modification_factor(tables, design.materials[*worst], kTurningDuration), {});
  builder.number("partial factor of the material", "γ_M", "", design.materials[*worst].partial_factor, {});
  builder.step("partial factor of permanent actions", "γ_G", gamma_g, "")
      .step("weight along the stud", "g_d", line_load / units::kNewtonPerKilonewton, "kN/m",
            "g_d = γ_G · ψ · m · g · b_t / (b · h)")
      .step("from the foot to the lifting points", "l", held, "m")
      .step("from there to the head", "a", height - held, "m")
      .step("moment, panel still flat", "M_d", turning_moment_nm(line_load, held, height) / units::kNewtonPerKilonewton,
            "kNm", "M_d = g_d · (l² − a²)² / (8 · l²)")
      .step("depth factor", "k_h", depth_factor(design.materials[*worst].timber.family, member.depth_m), "")
      .step("strength", "f_m,d", worst_strength / units::kPascalPerNewtonPerMm2, "N/mm²",
            "f_m,d = k_mod · k_h · f_m,k / γ_M");
  builder.note(
      "The panel is turned about its foot by its lifting points, its weight spread evenly; sheets are not counted as "
      "ribs. "
      "Splices of stacked studs need their own check.");
  builder.note(kLiftingCaution);
  return builder.judge(worst_stress / units::kPascalPerNewtonPerMm2, "N/mm²", Relation::at_most,
                       worst_strength / units::kPascalPerNewtonPerMm2,
                       "'" + member_name(panel, member) +
                           "' is overstressed while the panel is turned up; stiffen the panel or "
                           "turn it in a frame (Panel_Handling.TurningFrame)");
}

}  // namespace panel_dossier::structural
