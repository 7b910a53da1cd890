// The time of one lift, by hand.
#include <catch2/catch.hpp>
#include <string>
#include <utility>
#include <vector>

#include "plugins/quantities/checks.h"
#include "tests/quantities/programme/lifted_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

// 30 m from the crane and 12 m up: 14 m of hoisting at 20 m/min and a quarter circle of 47.124 m at 40 m/min take
// 0.7 + 1.1781 = 1.8781 min each way; eight fixings at 4 min by three people 10.6667 min, half of them before release.
// Hook: 2·1.5 + 2·1.8781 + 8 + 5.3333 + 1.5 = 21.5895 min. Crew: 8 + 10.6667 + 1.5 = 20.1667 min.
TEST_CASE("The hook's cycle is the time of a lift where it is longer than the crew's") {
  const Finding found = erection_time(lifted_panel(30.0, 12.0), lift_settings());
  REQUIRE(found.verdict == Verdict::information);
  CHECK(step(found, "s_h") == Approx(14.0));
  CHECK(step(found, "s_t") == Approx(47.1239).epsilon(1e-5));
  CHECK(step(found, "t_k") == Approx(21.5895).epsilon(1e-5));
  CHECK(step(found, "t_w") == Approx(20.1667).epsilon(1e-5));
  CHECK(std::get<double>(found.value) == Approx(21.5895 / 60.0).epsilon(1e-5));
}

// Nothing to hoist and all to fix: 8 + 10.6667 + 1.5 min of the crew against 3 + 8 + 5.3333 + 1.5 of the hook.
TEST_CASE("The crew's fixings are the time of a lift where the hook is back before them") {
  Settings given = lift_settings();
  given.set("quantities.lift_cycle.clearance_m", 0.0);
  given.set("quantities.lift_cycle.turn_deg", 0.0);
  const Finding found = erection_time(lifted_panel(30.0, 0.0), given);
  CHECK(step(found, "t_k") == Approx(17.8333).epsilon(1e-5));
  CHECK(std::get<double>(found.value) == Approx(20.1667 / 60.0).epsilon(1e-5));
}

TEST_CASE("A panel below the ground is lowered the same way, and the nearest place of the crane counts") {
  Settings given = lift_settings();
  CHECK(step(erection_time(lifted_panel(30.0, -4.0), given), "s_h") == Approx(6.0));
  given.set("structural.crane.further_places.0.x_m", 40.0);
  given.set("structural.crane.further_places.0.y_m", 0.0);
  CHECK(step(erection_time(lifted_panel(30.0, 12.0), given), "R") == Approx(10.0));
}

TEST_CASE("What a lift needs is named where it is absent or cannot be") {
  const Panel panel = lifted_panel(30.0, 12.0);
  using Wrong = std::pair<std::string, double>;
  for (const auto& [name, value] :
       {Wrong{"hoist_m_per_min", 0.0}, Wrong{"travel_m_per_min", -1.0}, Wrong{"fixers", 0.0}, Wrong{"place_min", -1.0},
        Wrong{"fixed_before_release", 1.2}, Wrong{"fixed_before_release", 0.0}, Wrong{"turn_deg", -90.0}}) {
    Settings given = lift_settings();
    given.set("quantities.lift_cycle." + name, value);
    INFO(name << " = " << value);
    const Finding found = erection_time(panel, given);
    CHECK(found.verdict == Verdict::not_assessed);
    CHECK(found.reason.find("quantities.lift_cycle." + name) != std::string::npos);
  }
  for (const std::string name :
       {"quantities.lift_cycle.release_min", "building.ground_level_m", "structural.crane.y_m"}) {
    const Settings whole = lift_settings();
    Settings given;
    for (const auto& [key, value] : whole.all()) {
      if (key != name) given.set(key, value);
    }
    INFO(name);
    CHECK(erection_time(panel, given).reason.find("setting '" + name + "' is missing") != std::string::npos);
  }
}

TEST_CASE("A panel without lifting points or without fixings has no time of a lift") {
  Panel panel = lifted_panel(30.0, 12.0);
  panel.parts.pop_back();
  panel.parts.pop_back();
  CHECK(erection_time(panel, lift_settings()).reason.find("no fixings to the frame") != std::string::npos);
  panel.parts.pop_back();
  CHECK(erection_time(panel, lift_settings()).reason.find("no lifting points") != std::string::npos);
}

TEST_CASE("A cycle far from the output that was experienced is a contradiction") {
  const Panel panel = lifted_panel(30.0, 12.0);
  Project project = project_of({panel});
  // 9.9 m² in 0.359825 h, six hours of eight: 20.635 m²/h over the working day.
  const auto total_with = [&](double experience) {
    Settings given = lift_settings();
    given.set("quantities.crew_area_rate_m2_per_h", experience);
    std::vector<PanelFindings> panels{{&project.panels[0], {erection_time(project.panels[0], given)}}};
    return project_erection_time(project, panels, given);
  };
  const Finding close = total_with(20.6);
  CHECK(close.verdict == Verdict::information);
  CHECK(step(close, "o") == Approx(20.635).epsilon(1e-4));
  CHECK(total_with(20.635 / 1.24).verdict == Verdict::information);
  CHECK(total_with(20.635 / 1.26).verdict == Verdict::not_assessed);
  CHECK(total_with(20.635 / 0.76).verdict == Verdict::information);
  const Finding far = total_with(20.635 / 0.74);
  CHECK(far.verdict == Verdict::not_assessed);
  CHECK(far.reason.find("quantities.lift_cycle") != std::string::npos);
  CHECK(far.reason.find("quantities.crew_area_rate_m2_per_h") != std::string::npos);
}
