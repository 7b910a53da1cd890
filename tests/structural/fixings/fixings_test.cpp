// Brackets to the frame and its movement, by hand.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/api/support/take_off.h"
#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/structural/checks.h"
#include "plugins/structural/fixings/fasteners.h"
#include "plugins/structural/fixings/fixings_checks.h"
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

TEST_CASE("Brackets carry wind by the studs' reactions, the hardest one with studs beside it") {
  const Project project = hoisted_project();
  const Finding finding = finding_of(findings_of(project), "structural.frame_fixings");
  // Simple spans of 2.91 m: 1.455 m of wall a row. A stud of 0.6 m at a bracket and two at 0.6 m of 0.8 m to the next:
  // 0.6·(1 + 2·0.25) = 0.9 m, more than 2.4/4 = 0.6 m and the spacing of 0.8 m. 1.5·1.0·1.455·0.9 = 1.964 kN.
  CHECK(step_of(finding, "b_r") == Approx(0.9).epsilon(1e-3));
  CHECK(step_of(finding, "N_w,d") == Approx(1.964).epsilon(2e-3));
  CHECK(value_of(finding) == Approx(1.964 / 9.0).epsilon(2e-3));
  CHECK(finding.verdict == Verdict::pass);
}

TEST_CASE("Brackets carry what persons leaning on the panel bring to their row") {
  Project project = hoisted_project();
  project.panels.front().properties.add("Panel_Structure", "BarrierLoadCategory", property_of("C1"));
  project.panels.front().properties.add("Panel_Structure", "BarrierLineLoad", property_of(1000.0));
  project.panels.front().properties.add("Panel_Structure", "BarrierHeight", property_of(1.1));
  const Finding finding = finding_of(findings_of(project), "structural.frame_fixings");
  // Studs 2.91 m long from 0.045 m above the foot: (2.91 − 1.055)/2.91 = 0.6375 of 1.0 kN/m. Wind leads:
  // 1.5·(1.0·1.455 + 0.7·0.6375)·0.9 = 2.567 kN.
  CHECK(step_of(finding, "q_r") == Approx(0.6375).epsilon(1e-3));
  CHECK(step_of(finding, "N_w,d") == Approx(2.567).epsilon(2e-3));
  CHECK(value_of(finding) == Approx(2.567 / 9.0).epsilon(2e-3));
}

TEST_CASE("Persons lead at a bracket where they push harder than the wind, beside the pull of a hanging panel") {
  Project project = hoisted_project();
  project.panels.front().properties.add("Panel_Structure", "BarrierLoadCategory", property_of("C1"));
  project.panels.front().properties.add("Panel_Structure", "BarrierLineLoad", property_of(5000.0));
  project.panels.front().properties.add("Panel_Structure", "BarrierHeight", property_of(1.1));
  project.panels.front().properties.add("Panel_Identity", "Arrangement", property_of("OVERSAIL"));
  const Finding finding = finding_of(findings_of(project), "structural.frame_fixings");
  // 0.6375 of 5.0 kN/m; ψ_0 of wind 0.6: 1.5·(0.6·1.0·1.455 + 3.187)·0.9 = 5.481 kN, and persons alone 1.5·3.187·0.9.
  const double persons = 5.0 * (2.91 - 1.055) / 2.91;
  const double across = 1.5 * (0.6 * 1.455 + persons) * 0.9;
  CHECK(step_of(finding, "N_w,d") == Approx(across).epsilon(1e-3));
  const double couple = step_of(finding, "N_g,d");
  const double shear = step_of(finding, "V_d");
  REQUIRE(finding.tables.size() == 1);
  const auto row = [&](const std::string& name) {
    for (const auto& cells : finding.tables[0].rows) {
      if (cells[0] == Value(name)) return std::pair{std::get<double>(cells[1]), std::get<double>(cells[2])};
    }
    throw std::out_of_range(name);
  };
  CHECK(row("tension in the bracket").first == Approx(across + couple).epsilon(1e-3));
  CHECK(row("both together, sum of the shares").first == Approx((across + couple) / 9.0 + shear / 8.0).epsilon(1e-3));
  // EN 1995-1-1 (8.38) to (8.41), screws 8 × 60 in C24: f_ax,k = 0.52·8^−0.5·60^−0.1·350^0.8, 4^0.9 of them, k_mod 0.9
  // of wind, 0.6 of weight, 0.8 of persons (medium) and γ_M 1.3.
  const double screws =
      0.52 / std::sqrt(8.0) * std::pow(60.0, -0.1) * std::pow(350.0, 0.8) * 8.0 * 60.0 * std::pow(4.0, 0.9) / 1.3 / 1e3;
  CHECK(row("withdrawal of the screws").second == Approx(0.9 * screws));
  CHECK(row("withdrawal of the screws, weight alone").first == Approx(couple));
  CHECK(row("withdrawal of the screws, weight alone").second == Approx(0.6 * screws));
  CHECK(row("withdrawal of the screws, persons and weight").first ==
        Approx(1.5 * persons * 0.9 + couple).epsilon(1e-3));
  CHECK(row("withdrawal of the screws, persons and weight").second == Approx(0.8 * screws));
}

TEST_CASE("The hardest loaded bracket has the largest of its share of the row, its spacing and the studs about it") {
  using structural::FrameActions;
  using structural::wind_width_m;
  FrameActions actions;
  actions.width_m = 2.4;
  actions.brackets_in_row = 2.0;
  actions.bracket_spacing_m = 0.8;
  actions.stud_width_m = 0.3;
  actions.stud_spacing_m = 0.3;
  // 2.4/2 = 1.2; 0.8; 0.3·(1 + 2·(5/8 + 2/8)) = 0.825.
  CHECK(wind_width_m(actions) == Approx(1.2));
  actions.brackets_in_row = 4.0;
  CHECK(wind_width_m(actions) == Approx(0.825));
  actions.stud_width_m = 0.2;
  CHECK(wind_width_m(actions) == Approx(0.8));
  // Without a neighbour the stud's own width, and one that stands at the next bracket brings nothing.
  actions.stud_width_m = 0.9;
  for (const double spacing_m : {0.0, 0.8}) {
    actions.stud_spacing_m = spacing_m;
    CHECK(wind_width_m(actions) == Approx(0.9));
  }
}

TEST_CASE("Screws are withdrawn by (8.38) within its range alone") {
  using structural::withdrawal;
  // One screw 10 × 100 in ρ_k 350: k_d = 1; f_ax,k = 0.52·10^−0.5·100^−0.1·350^0.8.
  const auto one = withdrawal({1.0, 0.010, 0.100, 350.0});
  REQUIRE(one);
  const double strength = 0.52 / std::sqrt(10.0) * std::pow(100.0, -0.1) * std::pow(350.0, 0.8);
  CHECK(one->diameter_factor == 1.0);
  CHECK(one->effective_count == 1.0);
  CHECK(one->resistance_n == Approx(strength * 10.0 * 100.0));
  CHECK(withdrawal({1.0, 0.006, 0.036, 350.0})->diameter_factor == Approx(0.75));
  for (const auto& [diameter_m, length_m, held] : {std::tuple{0.006, 0.036, true},
                                                   {0.0059, 0.060, false},
                                                   {0.012, 0.072, true},
                                                   {0.0121, 0.100, false},
                                                   {0.008, 0.047, false},
                                                   {0.008, 0.048, true}}) {
    INFO(diameter_m << " m, " << length_m << " m");
    CHECK(withdrawal({2.0, diameter_m, length_m, 350.0}).has_value() == held);
  }
  CHECK_FALSE(withdrawal({0.5, 0.008, 0.060, 350.0}));
  CHECK_FALSE(withdrawal({1.0, 0.008, 0.060, 0.0}));
}

TEST_CASE("Brackets that do not fit the panel at their spacing are not assessed") {
  Project project = hoisted_project();
  project.panels.front().parts.back().count = 20;
  const Finding finding = finding_of(findings_of(project), "structural.frame_fixings");
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason.find("wider than the panel") != std::string::npos);
}

TEST_CASE("Brackets drawn further apart than their spacing contradict it") {
  Project project = hoisted_project();
  Panel& panel = project.panels.front();
  const Part bracket = panel.parts.back();
  panel.parts.pop_back();
  const auto spacing = bracket.properties.number("Panel_Fastener", "Spacing");
  REQUIRE(spacing);
  // Two rows of three; the middle one of the lower row is moved, as past a doorway.
  const auto with_middle_at = [&](double apart_m) {
    Project drawn = project;
    for (const double z : {0.0, 2.88}) {
      const double e = spacing->value;
      for (const double x : {0.0, z == 0.0 ? apart_m : e, 2.0 * e}) {
        Part one = bracket;
        one.count = 1;
        one.bounds = Box3{{x, 0.0, z}, {x + 0.12, 0.01, z + 0.12}};
        drawn.panels.front().parts.push_back(std::move(one));
      }
    }
    return finding_of(findings_of(drawn), "structural.frame_fixings");
  };
  CHECK(with_middle_at(spacing->value).verdict == Verdict::pass);
  const Finding finding = with_middle_at(spacing->value + 0.05);
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason.find("mm apart, and Panel_Fastener.Spacing is") != std::string::npos);
}

TEST_CASE("The frame's movement and tolerance are held against joint and brackets") {
  const Finding finding = finding_of(findings_of(hoisted_project()), "structural.frame_movement");
  CHECK(value_of(finding) == Approx(0.75));  // tolerance 15 of 20 mm; movement 12 of 20 mm
  Settings sagging = hoisting_settings();
  sagging.set("structural.frame.deflection_m", 0.030);
  CHECK(finding_of(findings_of(hoisted_project(), sagging), "structural.frame_movement").verdict == Verdict::fail);
}

TEST_CASE("An oversail panel adds its eccentric weight") {
  Project project = hoisted_project();
  project.panels.front().properties.add("Panel_Identity", "Arrangement", property_of("OVERSAIL"));
  const Finding finding = finding_of(findings_of(project), "structural.frame_fixings");
  const double weight_kn = mass_of(project) * 9.80665 / 1000.0;
  const double e = 0.020 + take_off(project.panels.front(), project).centre_of_gravity_m()->y;
  CHECK(step_of(finding, "V_d") == Approx(1.35 * weight_kn / 4.0).epsilon(1e-6));
  CHECK(step_of(finding, "N_g,d") == Approx(1.35 * weight_kn * e / (2.91 * 4.0)).epsilon(1e-6));
}

TEST_CASE("Brackets without resistance and screws out of range are named") {
  Project project = hoisted_project();
  Part& bracket = project.panels.front().parts.back();
  remove(bracket.properties, "Panel_Fastener.ScrewDiameter");
  bracket.properties.add("Panel_Fastener", "ScrewDiameter", property_of(0.004));
  CHECK(finding_of(findings_of(project), "structural.frame_fixings").reason.find("8.7.2") != std::string::npos);
  remove(bracket.properties, "Panel_Fastener.DesignTension");
  const Finding finding = finding_of(findings_of(project), "structural.frame_fixings");
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason.find("DesignTension") != std::string::npos);
}
