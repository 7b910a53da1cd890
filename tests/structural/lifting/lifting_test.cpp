// Lifting, turning up, crane and transport of one panel, by hand.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/api/support/take_off.h"
#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/structural/checks.h"
#include "plugins/structural/lifting/lifting_checks.h"
#include "plugins/structural/lifting/lifting_design.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/hoisted_panel.h"
#include "tests/structural/structural_tables.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

std::vector<Finding> findings_of(const Project& project, const Settings& settings = hoisting_settings()) {
  return findings_as_drawn(project, settings);
}

double mass_of(const Project& project) {
  return take_off(project.panels.front(), project).mass_kg().value();
}

double value_of(const Finding& finding) {
  return std::get<double>(finding.value);
}

}  // namespace

TEST_CASE("A panel that hangs level from two points pulls half its weight on each") {
  const Project project = hoisted_project();
  const Finding finding = finding_of(findings_of(project), "structural.lifting");
  // R = 1.3·m·g/2 for a panel whose centre is in the middle; slings at 30° pull R/cos 30°.
  const double reaction_kn = 1.3 * mass_of(project) * 9.80665 / 2.0 / 1000.0;
  CHECK(step_of(finding, "R_d") == Approx(reaction_kn).epsilon(0.01));
  CHECK(value_of(finding) == Approx(step_of(finding, "R_d") / std::cos(M_PI / 6.0)).epsilon(1e-9));
  CHECK(step_of(finding, "H_d") == Approx(step_of(finding, "R_d") * std::tan(M_PI / 6.0)).epsilon(1e-9));
  CHECK(step_of(finding, "F_1") == Approx(value_of(finding) / 4.0).epsilon(1e-9));
  CHECK(finding.verdict == Verdict::pass);
  CHECK(finding.drawings.size() == 1);
}

TEST_CASE("Points pull in balance about the centre, also where it hangs straight below one of them") {
  constexpr double kWeight_n = 10e3;
  const std::vector<double> two{0.5, 2.5};
  for (const bool equalised : {true, false}) {
    for (const double centre_m : {0.5, 0.9, 1.5, 2.5}) {
      INFO(centre_m);
      const std::vector<double> forces = structural::lifting_reactions_n(two, centre_m, kWeight_n, equalised);
      REQUIRE(forces.size() == 2);
      CHECK(forces[0] == Approx(kWeight_n * (2.5 - centre_m) / 2.0).margin(1e-6));
      CHECK(forces[1] == Approx(kWeight_n * (centre_m - 0.5) / 2.0).margin(1e-6));
    }
    for (const double centre_m : {0.499, 2.501}) {
      CHECK(structural::lifting_reactions_n(two, centre_m, kWeight_n, equalised).empty());
    }
  }
  // Below the middle one of three: it may carry all, or the outer ones half each.
  CHECK(structural::lifting_reactions_n({0.0, 1.0, 2.0}, 1.0, kWeight_n, false) ==
        std::vector<double>{kWeight_n / 2.0, kWeight_n, kWeight_n / 2.0});
}

TEST_CASE("A working load limit that is too low fails, and a point without one is named") {
  Project project = hoisted_project();
  Part& loop = project.panels.front().parts[project.panels.front().parts.size() - 3];
  replace(loop.properties, "Panel_Fastener", "WorkingLoadLimit", property_of(500.0));
  CHECK(finding_of(findings_of(project), "structural.lifting").verdict == Verdict::fail);
  remove(loop.properties, "Panel_Fastener.WorkingLoadLimit");
  const Finding finding = finding_of(findings_of(project), "structural.lifting");
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason.find("has no Panel_Fastener.WorkingLoadLimit") != std::string::npos);
}

TEST_CASE("A panel whose centre hangs outside its points is not assessed") {
  Project project = hoisted_project();
  auto& parts = project.panels.front().parts;
  for (std::size_t i = parts.size() - 3; i < parts.size() - 1; ++i) {
    parts[i].bounds->min.x = 0.10 * static_cast<double>(i - (parts.size() - 3));
    parts[i].bounds->max.x = parts[i].bounds->min.x + 0.08;
  }
  const Finding finding = finding_of(findings_of(project), "structural.lifting");
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason.find("does not hang between the lifting points") != std::string::npos);
}

TEST_CASE("The stop wind on the hanging panel and the angle it swings by can be redone by hand") {
  const Project project = hoisted_project();
  const Finding finding = finding_of(findings_of(project), "structural.lifting");
  double coefficient = 0.0;
  for (const Input& input : finding.inputs) {
    if (input.symbol == "c_f") coefficient = std::get<double>(input.value);
  }
  CHECK(coefficient == 1.8);  // EN 1991-1-4 7.4.3: signboards
  const double force_n = 0.5 * 1.25 * 9.0 * 9.0 * 1.8 * 2.4 * 3.0;
  CHECK(step_of(finding, "F_w") == Approx(force_n / 1000.0));
  double swing_deg = 0.0;
  for (const Step& step : finding.steps) {
    if (step.name.starts_with("it swings out")) swing_deg = std::get<double>(step.value);
  }
  CHECK(swing_deg == Approx(std::atan(force_n / (mass_of(project) * 9.80665)) * 180.0 / M_PI));
  // Out of plumb by what the centre lies off the points, over what the points lie above it.
  const Vec3 centre = take_off(project.panels.front(), project).centre_of_gravity_m().value();
  CHECK(step_of(finding, "α") == Approx(std::atan((centre.y - 0.08) / (3.0 - centre.z)) * 180.0 / M_PI));
}

TEST_CASE("A dynamic factor below 1 is refused, and 1 itself is none") {
  Settings settings = hoisting_settings();
  settings.set("structural.lifting.dynamic_factor", 1.0);
  CHECK(finding_of(findings_of(hoisted_project(), settings), "structural.lifting").verdict == Verdict::pass);
  settings.set("structural.lifting.dynamic_factor", 0.99);
  CHECK(finding_of(findings_of(hoisted_project(), settings), "structural.lifting").reason ==
        "setting 'structural.lifting.dynamic_factor' is below 1");
}

TEST_CASE("Two points at one place, and a route no higher than the deck, are refused") {
  Project project = hoisted_project();
  auto& parts = project.panels.front().parts;
  parts.push_back(lifting_loop(0.6, 3.0, 10000.0));
  CHECK(finding_of(findings_of(project), "structural.lifting").reason ==
        "two lifting points stand at the same place along the panel");
  Settings low = hoisting_settings();
  low.set("structural.transport.overall_height_m", 0.9);
  CHECK(finding_of(findings_of(hoisted_project(), low), "structural.transport_size").reason ==
        "setting 'structural.transport.overall_height_m' leaves no height above the deck");
}

TEST_CASE("Settings that lifting needs are named, and angles above 60° are refused") {
  const Project project = hoisted_project();
  for (const char* key :
       {"structural.lifting.dynamic_factor", "structural.lifting.sling_angle_deg", "structural.lifting.equalised",
        "structural.crane.gear_kg", "structural.transport.payload_kg"}) {
    INFO(key);
    bool named = false;
    for (const Finding& finding : findings_of(project, without(hoisting_settings(), key))) {
      named = named || finding.reason.find(key) != std::string::npos;
      if (finding.reason.find(key) != std::string::npos) CHECK(finding.verdict == Verdict::not_assessed);
    }
    CHECK(named);
  }
  Settings flat = hoisting_settings();
  flat.set("structural.lifting.sling_angle_deg", 60.0);
  CHECK(finding_of(findings_of(project, flat), "structural.lifting").verdict == Verdict::pass);
  flat.set("structural.lifting.sling_angle_deg", 60.01);
  CHECK(finding_of(findings_of(project, flat), "structural.lifting").verdict == Verdict::not_assessed);
}

TEST_CASE("Turning up bends the studs as beams from foot to lifting points") {
  const Project project = hoisted_project();
  const Finding finding = finding_of(findings_of(project), "structural.turning_up");
  // g_d = 1.35·1.3·m·g/(2.4·3.0)·0.6 for a stud in the field, held at the head: M = g_d·3²/8, W = 45·145²/6.
  const double line_load = 1.35 * 1.3 * mass_of(project) * 9.80665 / (2.4 * 3.0) * 0.6;
  CHECK(value_of(finding) == Approx(line_load * 9.0 / 8.0 / (0.045 * 0.145 * 0.145 / 6.0) / 1e6).epsilon(1e-6));
  // k_mod 0.9, k_h (150/145)^0.2, f_m,k 24, γ_M 1.3.
  CHECK(step_of(finding, "f_m,d") == Approx(0.9 * std::pow(150.0 / 145.0, 0.2) * 24.0 / 1.3).epsilon(1e-6));
  CHECK(finding.verdict == Verdict::pass);
}

TEST_CASE("Held below its head, a stud is bent by the part beyond where that is the harder") {
  using structural::turning_moment_nm;
  // 1 kN/m over 3 m: held at the head w·l²/8; held at 2 m in the span w·(4 − 1)²/(8·4), beyond it w·1²/2.
  CHECK(turning_moment_nm(1000.0, 3.0, 3.0) == Approx(1000.0 * 9.0 / 8.0));
  CHECK(turning_moment_nm(1000.0, 2.0, 3.0) == Approx(500.0));
  CHECK(turning_moment_nm(1000.0, 1.6, 3.0) == Approx(1000.0 * 1.4 * 1.4 / 2.0));
  CHECK(turning_moment_nm(1000.0, 2.4, 3.0) == Approx(1000.0 * std::pow(2.4 * 2.4 - 0.36, 2) / (8.0 * 2.4 * 2.4)));
}

TEST_CASE("A panel in a turning frame has no bending of its own") {
  Project project = hoisted_project();
  project.panels.front().properties.add("Panel_Handling", "TurningFrame", property_of(true));
  const Finding finding = finding_of(findings_of(project), "structural.turning_up");
  CHECK(finding.verdict == Verdict::information);
  CHECK(std::get<std::string>(finding.value) == "in a turning frame");
}

TEST_CASE("The crane's table is read at the next larger radius and ends at its largest") {
  Project project = hoisted_project();
  const double mass = mass_of(project);
  // The panel's middle stands at (1.2, 0.08): 15.1 m from the crane at (0, −15).
  const Finding near = finding_of(findings_of(project), "structural.crane_capacity");
  CHECK(value_of(near) == Approx(mass + 300.0));
  CHECK(std::get<double>(near.limit) == 2000.0);
  CHECK(step_of(near, "r") == Approx(std::hypot(1.2, 15.0845)).epsilon(1e-6));
  project.panels.front().frame.origin.x = 20.0;
  CHECK(finding_of(findings_of(project), "structural.crane_capacity").verdict == Verdict::fail);
}

TEST_CASE("The vehicle's closest limit governs transport") {
  Project project = hoisted_project();
  // On its foot 3.0 m high of 4.0 m, 2.4 m long of 13.6 m: 0.75.
  const Finding finding = finding_of(findings_of(project), "structural.transport_size");
  CHECK(value_of(finding) == Approx(0.75));
  CHECK(finding.verdict == Verdict::pass);
  Settings racked = hoisting_settings();
  racked.set("quantities.transport.rack_base_m", 1.2);
  // On its left edge: 1.2 + 2.4 m of 4.0 m.
  CHECK(value_of(finding_of(findings_of(project, racked), "structural.transport_size")) == Approx(0.9));
  racked.set("quantities.transport.rack_base_m", -0.1);
  CHECK(finding_of(findings_of(project, racked), "structural.transport_size").verdict == Verdict::not_assessed);
  Settings heavy = hoisting_settings();
  heavy.set("structural.transport.payload_kg", 100.0);
  CHECK(finding_of(findings_of(project, heavy), "structural.transport_size").verdict == Verdict::fail);
}
