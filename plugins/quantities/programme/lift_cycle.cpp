#include "plugins/quantities/programme/lift_cycle.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>

#include "core/api/support/fastener_kinds.h"
#include "core/api/support/site_place.h"

namespace panel_dossier::quantities {

namespace {

constexpr const char* kGroup = "quantities.lift_cycle.";
constexpr double kMinutesOfAnHour = 60.0;
constexpr double kDegreesOfAHalfTurn = 180.0;

/// Times in minutes, speeds in m/min, lengths in m.
struct CycleData {
  double attach_min = 0.0;  ///< a, a lifting point
  double hoist = 0.0;       ///< v_h
  double travel = 0.0;      ///< v_t, of the hook in plan
  double turn_deg = 0.0;    ///< α, from vehicle to place
  double clearance_m = 0.0;
  double place_min = 0.0;    ///< t_p
  double fix_min = 0.0;      ///< f, a fixing and fixer
  double fixers = 0.0;       ///< n_w
  double held = 0.0;         ///< φ, share of the fixings before the hook is taken off
  double release_min = 0.0;  ///< t_r
};

struct Lift {
  double points = 0.0;   ///< n_l
  double fixings = 0.0;  ///< n_f
  double height_m = 0.0;
  double radius_m = 0.0;
};

std::string key(const char* name) {
  return std::string(kGroup) + name;
}

CycleData read_cycle(FindingBuilder& finding, const Settings& settings) {
  const auto not_below_zero = [&](const char* name, const char* symbol, const char* unit, const char* setting) {
    const auto value = finding.number(name, symbol, unit, settings.number(key(setting)),
                                      "setting '" + key(setting) + "' is missing or no number");
    if (value && *value < 0.0) finding.missing("setting '" + key(setting) + "' is below 0");
    return value.value_or(0.0);
  };
  const auto above_zero = [&](const char* name, const char* symbol, const char* unit, const char* setting) {
    return finding
        .positive(name, symbol, unit, settings.number(key(setting)),
                  "setting '" + key(setting) + "' is missing or not above 0")
        .value_or(1.0);
  };
  CycleData cycle;
  cycle.attach_min = not_below_zero("time to attach a lifting point", "a", "min", "attach_min_per_point");
  cycle.clearance_m = not_below_zero("way of the hook above the panel's place", "c", "m", "clearance_m");
  cycle.hoist = above_zero("speed of the hook upwards and downwards", "v_h", "m/min", "hoist_m_per_min");
  cycle.turn_deg = not_below_zero("turn of the crane from the vehicle to the place", "α", "°", "turn_deg");
  cycle.travel = above_zero("speed of the hook in plan", "v_t", "m/min", "travel_m_per_min");
  cycle.place_min = not_below_zero("time to place, line and plumb the panel", "t_p", "min", "place_min");
  cycle.fix_min = not_below_zero("time of one fixing to the frame", "f", "min", "fix_min_per_fixing");
  cycle.fixers = above_zero("people who fix at a time", "n_w", "", "fixers");
  cycle.held = above_zero("share of the fixings before the hook is taken off", "φ", "", "fixed_before_release");
  if (cycle.held > 1.0) finding.missing("setting '" + key("fixed_before_release") + "' is above 1, more than all");
  cycle.release_min = not_below_zero("time to release the panel", "t_r", "min", "release_min");
  return cycle;
}

double count_of(const Panel& panel, bool (*does)(const Part&)) {
  double count = 0.0;
  for (const Part* part : fasteners_that(panel, does)) count += part->count;
  return count;
}

bool fixes_on_site(const Part& part) {
  return holds_panel(part) || ties_down(part);
}

Lift read_lift(FindingBuilder& finding, const Panel& panel, const Settings& settings) {
  Lift lift;
  const auto counted = [&](const char* name, const char* symbol, bool (*does)(const Part&), const char* what) {
    const double count = count_of(panel, does);
    if (!(count > 0.0)) {
      finding.missing(what);
      return 0.0;
    }
    finding.number(name, symbol, "", Sourced<double>{count, panel.origin}, {});
    return count;
  };
  lift.points = counted("lifting points", "n_l", lifts_panel,
                        "the panel has no lifting points (IfcMechanicalFastener with LIFTING in its ObjectType)");
  lift.fixings =
      counted("fixings to the frame", "n_f", fixes_on_site,
              "the panel has no fixings to the frame (IfcMechanicalFastener with BRACKET, ANCHOR or TIE DOWN "
              "in its ObjectType)");
  const auto ground =
      finding.number("level of the ground", "z_0", "m", settings.number("building.ground_level_m"),
                     "setting 'building.ground_level_m' is missing, so the height of the lift is not known");
  const Vec3 foot = middle_of_foot(panel);
  const SitePlace crane = nearest_place(site_places(settings, "structural.crane"), foot);
  const auto x =
      finding.number("place of the crane", "x_c", "m", crane.x_m, "setting 'structural.crane.x_m' is missing");
  const auto y =
      finding.number("place of the crane", "y_c", "m", crane.y_m, "setting 'structural.crane.y_m' is missing");
  if (!ground || !x || !y) return lift;
  finding.number("foot of the panel where it stands", "z_p", "m", Sourced<double>{foot.z, panel.origin}, {});
  finding.number("middle of the panel where it stands", "x_p", "m", Sourced<double>{foot.x, panel.origin}, {});
  finding.number("middle of the panel where it stands", "y_p", "m", Sourced<double>{foot.y, panel.origin}, {});
  // A panel below the ground is lowered: the way counts, not its direction.
  lift.height_m = std::abs(foot.z - *ground);
  lift.radius_m = std::hypot(foot.x - *x, foot.y - *y);
  return lift;
}

}  // namespace

bool cycle_given(const Settings& settings) {
  const auto first = settings.all().lower_bound(kGroup);
  return first != settings.all().end() && first->first.starts_with(kGroup);
}

std::vector<CheckInput> erection_inputs(std::vector<CheckInput> inputs) {
  for (const char* name : {"quantities.lift_cycle.*", "quantities.crew_area_rate_m2_per_h", "building.ground_level_m",
                           "structural.crane.x_m", "structural.crane.y_m", "structural.crane.further_places.*.x_m",
                           "structural.crane.further_places.*.y_m"}) {
    inputs.push_back(optional_setting(name));
  }
  return with_parts(std::move(inputs));
}

std::optional<double> cycle_hours(FindingBuilder& finding, const Panel& panel, const Settings& settings) {
  const CycleData cycle = read_cycle(finding, settings);
  const Lift lift = read_lift(finding, panel, settings);
  if (finding.incomplete()) return std::nullopt;
  const double way_up_m = lift.height_m + cycle.clearance_m;
  const double way_in_plan_m = lift.radius_m * cycle.turn_deg * std::numbers::pi / kDegreesOfAHalfTurn;
  const double travel_min = way_up_m / cycle.hoist + way_in_plan_m / cycle.travel;
  const double fixing_min = lift.fixings * cycle.fix_min / cycle.fixers;
  const double attach_min = lift.points * cycle.attach_min;
  const double hook_min = attach_min + 2.0 * travel_min + cycle.place_min + cycle.held * fixing_min + cycle.release_min;
  const double crew_min = cycle.place_min + fixing_min + cycle.release_min;
  finding.step("way of the hook upwards", "s_h", way_up_m, "m", "s_h = max(z_p − z_0; z_0 − z_p) + c")
      .step("distance from the crane", "R", lift.radius_m, "m", "R = √((x_p − x_c)² + (y_p − y_c)²)")
      .step("way of the hook in plan, an arc", "s_t", way_in_plan_m, "m", "s_t = R · α")
      .step("attaching", "t_a", attach_min, "min", "t_a = n_l · a")
      .step("hoisting and turning, one way", "t_h", travel_min, "min", "t_h = s_h / v_h + s_t / v_t")
      .step("all fixings", "t_f", fixing_min, "min", "t_f = n_f · f / n_w")
      .step("the hook's cycle", "t_k", hook_min, "min", "t_k = t_a + 2 · t_h + t_p + φ · t_f + t_r")
      .step("the crew's time on the panel", "t_w", crew_min, "min", "t_w = t_p + t_f + t_r");
  const double hours = std::max(hook_min, crew_min) / kMinutesOfAnHour;
  finding.step("time of crane and crew", "t", hours, "h", "t = max(t_k; t_w)");
  return hours;
}

}  // namespace panel_dossier::quantities
