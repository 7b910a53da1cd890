#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "core/api/finding/roles.h"
#include "core/api/support/tolerances.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/structural/lifting/lifting_checks.h"
#include "plugins/structural/lifting/lifting_design.h"

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
  if (angle && !(*angle >= 0.0 && *angle <= kMostSlingAngle_deg)) {
    builder.missing("setting 'structural.lifting.sling_angle_deg' must be at least 0 and at most 60");
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
    if (x[i + 1] - x[i] < tolerance::kModelling_m)
      builder.missing("two lifting points stand at the same place along the panel");
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
  const auto pull_in_words = [&hanging](std::size_t i) {
    return fixed_text(hanging.leg_n(i) / units::kNewtonPerKilonewton, 1) + " kN";
  };
  const std::size_t points = hanging.basis.points.size();
  bool alike = points > 1;
  for (std::size_t i = 1; i < points; ++i) alike = alike && pull_in_words(i) == pull_in_words(0);
  // Beside a tall panel the places would be drawn over each other; the table holds them.
  constexpr double kReadableShare = 0.06;
  double narrowest = width - hanging.basis.points.back().x_m;
  for (std::size_t i = 0; i < points; ++i) {
    const double before = i == 0 ? 0.0 : hanging.basis.points[i - 1].x_m;
    narrowest = std::min(narrowest, hanging.basis.points[i].x_m - before);
  }
  const bool readable = narrowest >= kReadableShare * height;
  double last = 0.0;
  for (std::size_t i = 0; i < points; ++i) {
    const double x = hanging.basis.points[i].x_m;
    const double lean = x < hanging.basis.centre.x ? 1.0 : -1.0;
    drawing.lines.push_back(
        {{x, height}, {x + lean * sling * std::tan(hanging.angle_rad), height + sling}, LineStyle::normal});
    if (!alike) drawing.texts.push_back({{x, height + 0.5 * sling}, pull_in_words(i)});
    if (readable) drawing.dimensions.push_back({{last, 0.0}, {x, 0.0}, -0.25, ""});
    last = x;
  }
  if (alike) {
    drawing.texts.push_back({{last, height + 0.5 * sling}, std::to_string(points) + " × " + pull_in_words(0)});
  }
  if (readable) drawing.dimensions.push_back({{last, 0.0}, {width, 0.0}, -0.25, ""});
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
    builder.step("hangs out of plumb by the angle whose tangent is (y_G − y_points) / (z_points − z_G)", "α",
                 units::degrees_from_radians(std::atan2(hanging.basis.centre.y - y, drop)), "°");
  }
  const auto stop = settings.number("structural.lifting.stop_wind_m_per_s");
  const auto coefficient = tables.lifting_factors.number("sign board", "factor");
  if (!stop || !coefficient || !(stop->value > 0.0)) {
    builder.note("No wind on the hanging panel: setting 'structural.lifting.stop_wind_m_per_s' is missing.");
    return;
  }
  builder.number("wind speed at which lifting stops", "v", "m/s", stop, {});
  builder.value("stop_wind", stop->value, "m/s");
  builder.number("force coefficient of a flat board", "c_f", "", coefficient, {});
  builder.number("width of the panel", "B", "m", panel.width_m, {});
  builder.number("height of the panel", "H", "m", panel.height_m, {});
  constexpr double kAirDensity_kg_per_m3 = 1.25;
  const double force = 0.5 * kAirDensity_kg_per_m3 * stop->value * stop->value * coefficient->value *
                       panel.width_m.value * panel.height_m.value;
  builder.step("wind on the panel at that speed", "F_w", force / units::kNewtonPerKilonewton, "kN",
               "F_w = 0.5 · 1.25 · v² · c_f · B · H / 1000");
  builder.step("it swings out by the angle whose tangent is F_w / (m · g)", "",
               units::degrees_from_radians(std::atan2(force, hanging.basis.mass_kg * units::kStandardGravity_m_per_s2)),
               "°");
}

}  // namespace

const CheckDeclaration kLiftingCheck{
    .id = "structural.lifting",
    .title = "Pull in the hardest pulled lifting point",
    .project_title = {},
    .sentence =
        "Of all lifting points of the hanging panel, the largest share of the pull in its sling, with the dynamic "
        "factor, in its working load limit is at most 1.",
    .clause = "Statics of a hanging rigid body; working load limits of the lifting points (common practice)",
    .units = {"kN"},
    .kind = CheckKind::limit,
    .inputs = with_model(
        {property("Panel_Fastener.WorkingLoadLimit"), optional_property("Panel_Fastener.ScrewsPerPiece"),
         optional_property("Pset_MaterialCommon.MassDensity"), optional_property("Panel_Filling.FactoryFitted"),
         optional_property("Panel_Filling.Mass"), setting("structural.lifting.dynamic_factor"),
         setting("structural.lifting.sling_angle_deg"), setting("structural.lifting.equalised"),
         optional_setting("structural.lifting.stop_wind_m_per_s"), data_table("lifting_factors.csv")}),
    .limits =
        {"The fitting of the lifting points beyond their limit, slings, shackles, crane and ground are not judged.",
         "Swing at the stop wind has no limit of its own.", "The panel hangs as a rigid body."},
    .role = std::string(role::kLifting)};

Finding lifting(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables) {
  FindingBuilder builder(kLiftingCheck, panel.global_id);
  const Hanging hanging = hang(panel, project, settings, builder);
  if (builder.incomplete()) return builder.not_assessed();
  std::size_t worst = 0;
  for (std::size_t i = 1; i < hanging.basis.points.size(); ++i) {
    if (hanging.utilisation(i) > hanging.utilisation(worst)) worst = i;
  }
  builder
      .step("weight on the hook", "G_d", hanging.basis.hoisted_n() / units::kNewtonPerKilonewton, "kN",
            "G_d = ψ · m · 9.80665 / 1000")
      .step("centre of gravity from the left edge", "x_G", hanging.basis.centre.x, "m")
      .step_text("hardest pulled point", hanging.basis.points[worst].part->name)
      .step(hanging.equalised ? "its vertical force, on a straight line through those of all points"
                              : "its vertical force, the worst of any two points that balance the weight",
            "R_d", hanging.reactions_n[worst] / units::kNewtonPerKilonewton, "kN")
      .step("pull in its sling", "F_d", hanging.leg_n(worst) / units::kNewtonPerKilonewton, "kN", "F_d = R_d / cos(β)")
      .step("push along the head", "H_d",
            hanging.reactions_n[worst] * std::tan(hanging.angle_rad) / units::kNewtonPerKilonewton, "kN",
            "H_d = R_d · tan(β)");
  builder.value("points", static_cast<double>(hanging.basis.points.size()), "");
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

}  // namespace panel_dossier::structural
