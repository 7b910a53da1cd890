// Hanging and turning panels, and screws in withdrawal, against sources outside the project.
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "core/api/testing/findings.h"
#include "plugins/structural/basis/beam_solver.h"
#include "plugins/structural/checks.h"
#include "plugins/structural/fixings/fasteners.h"
#include "plugins/structural/fixings/fixings_checks.h"
#include "plugins/structural/lifting/lifting_design.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/hoisted_panel.h"
#include "tests/structural/structural_tables.h"

using namespace panel_dossier;
using namespace panel_dossier::structural;

TEST_CASE("Reactions of a body that hangs from two points follow the law of the lever") {
  // Archimedes, On the Equilibrium of Planes, proposition 6: weights balance at distances inverse to them.
  const auto forces = lifting_reactions_n({0.0, 4.0}, 1.0, 12000.0, false);
  REQUIRE(forces.size() == 2);
  CHECK(forces[0] == Approx(9000.0));
  CHECK(forces[1] == Approx(3000.0));
  const auto equalised = lifting_reactions_n({0.0, 4.0}, 1.0, 12000.0, true);
  REQUIRE(equalised.size() == 2);
  CHECK(equalised[0] == Approx(9000.0));
  CHECK(equalised[1] == Approx(3000.0));
  CHECK(lifting_reactions_n({0.0, 4.0}, 4.5, 12000.0, false).empty());
}

TEST_CASE("Of four slings two may carry all unless the load is equalised") {
  // Common practice, no source: of a rigid load on four legs only two are counted on.
  const auto any = lifting_reactions_n({0.0, 1.0, 3.0, 4.0}, 2.0, 10000.0, false);
  REQUIRE(any.size() == 4);
  CHECK(any[0] == Approx(5000.0));
  CHECK(any[1] == Approx(20000.0 / 3.0));
  CHECK(any[2] == Approx(20000.0 / 3.0));
  CHECK(any[3] == Approx(5000.0));
  for (const double force : lifting_reactions_n({0.0, 1.0, 3.0, 4.0}, 2.0, 10000.0, true)) {
    CHECK(force == Approx(2500.0));
  }
}

TEST_CASE("Equalised forces balance weight and moment like bolts in a row") {
  // Forces of a rigid plate on equal springs: F_i = V/n + M·x_i/Σx² (any textbook of steel connections, bolt groups).
  const std::vector<double> x{0.5, 1.5, 2.5, 4.0};
  const auto forces = lifting_reactions_n(x, 2.4, 8000.0, true);
  double sum = 0.0;
  double moment = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    sum += forces[i];
    moment += forces[i] * x[i];
  }
  CHECK(sum == Approx(8000.0).epsilon(1e-12));
  CHECK(moment == Approx(8000.0 * 2.4).epsilon(1e-12));
}

// Vendors' tables (Ashley Sling, calculating sling angles; Sharrow Lifting, page 99), as read there: the factor on the
// share of the load by the angle of the leg from the horizontal. They print the reciprocal of the sine rounded to three
// decimals, itself to three: 1.742 at 35° is 1/0.574, not 1/0.57358. Read back the same way each factor is met to half
// of its last digit.
TEST_CASE("Slings pull by the factors of the vendors' tables") {
  struct Row {
    double from_horizontal_deg;
    double factor;
  };
  for (const Row& row : {Row{90.0, 1.000}, Row{85.0, 1.004}, Row{80.0, 1.015}, Row{75.0, 1.035}, Row{70.0, 1.064},
                         Row{65.0, 1.104}, Row{60.0, 1.155}, Row{55.0, 1.221}, Row{50.0, 1.305}, Row{45.0, 1.414},
                         Row{40.0, 1.555}, Row{35.0, 1.742}, Row{30.0, 2.000}}) {
    INFO(row.from_horizontal_deg << "° from the horizontal");
    const double from_vertical_rad = (90.0 - row.from_horizontal_deg) * M_PI / 180.0;
    const double rounded_sine = std::round(1000.0 / leg_force_n(1.0, from_vertical_rad)) / 1000.0;
    CHECK(1.0 / rounded_sine == Approx(row.factor).epsilon(0.0).margin(0.0005));
  }
  // By length of the leg over its height: 120 over 96.
  CHECK(leg_force_n(1.0, std::acos(96.0 / 120.0)) == Approx(1.25).epsilon(1e-12));
}

TEST_CASE("A load on two legs pulls each as the vendors print") {
  // 10,000 on two legs: 5,775 each at 60° from the horizontal, 7,070 at 45°, 10,000 at 30°: five thousand times factors
  // of three decimals, so 2.5 is half of their last digit.
  const auto each = lifting_reactions_n({0.0, 2.0}, 1.0, 10000.0, false);
  REQUIRE(each.size() == 2);
  CHECK(leg_force_n(each[0], M_PI / 6.0) == Approx(5775.0).margin(2.5));
  CHECK(leg_force_n(each[0], M_PI / 4.0) == Approx(7070.0).margin(2.5));
  CHECK(leg_force_n(each[1], M_PI / 3.0) == Approx(10000.0).margin(2.5));
  // Working load limits by mode: two legs carry 1.4 of one with 90° between them and 1.0 with 120°; the tables round
  // the first down from 1.414.
  CHECK(10000.0 / leg_force_n(each[0], M_PI / 4.0) == Approx(1.4).margin(0.05));
  CHECK(10000.0 / leg_force_n(each[0], M_PI / 3.0) == Approx(1.0).margin(0.05));
}

TEST_CASE("The check of a hanging panel takes slings up to 60° from the vertical, as the tables do") {
  Project project = testing::hoisted_project();
  Settings settings = testing::hoisting_settings();
  const auto pull_over_share = [&](double from_vertical_deg) {
    settings.set("structural.lifting.sling_angle_deg", from_vertical_deg);
    const auto findings = testing::findings_as_drawn(project, settings);
    const Finding& finding = testing::finding_of(findings, "structural.lifting");
    return testing::step_of(finding, "F_d") / testing::step_of(finding, "R_d");
  };
  CHECK(pull_over_share(0.0) == Approx(1.000).margin(0.0005));
  CHECK(pull_over_share(30.0) == Approx(1.155).margin(0.0005));
  CHECK(pull_over_share(60.0) == Approx(2.000).margin(0.0005));
}

TEST_CASE("A panel being turned up is a beam overhanging its lifting points") {
  // Beam overhanging one support, uniform load: M = w(l + a)²(l − a)²/(8 l²) (AISC Steel Construction Manual, beam
  // diagrams, case 24, from memory), and the direct stiffness method.
  const double w = 500.0;
  const double l = 2.5;
  const double a = 0.5;
  CHECK(turning_moment_nm(w, l, l + a) == Approx(w * 9.0 * 4.0 / (8.0 * 6.25)));
  Beam beam;
  beam.length_m = l + a;
  beam.supports_m = {0.0, l};
  beam.bending_stiffness_nm2 = 1e5;
  CHECK(turning_moment_nm(w, l, l + a) ==
        Approx(largest_moment_nm(solve_beam(beam, {{0.0, l + a, w}}, {}))).epsilon(1e-6));
}

TEST_CASE("Common practice: panels above 20 m tall and 4.5 m wide have been built") {
  // No source. Such a panel is limited by handling: it cannot be turned up on its own studs and must be in a frame,
  // which the check says instead of refusing the size.
  Project project = testing::cassette_project({.width_m = 4.5, .height_m = 20.4, .stud_depth_m = 0.220});
  project.panels.front().properties.add("Panel_Structure", "DesignWindPressure", testing::property_of(1000.0));
  project.panels.front().properties.add("Panel_Structure", "SupportSpacing", testing::property_of(3.4));
  testing::make_hoistable(project);
  const auto turning_up = [&] {
    return testing::finding_of(testing::findings_as_drawn(project, testing::hoisting_settings()),
                               "structural.turning_up");
  };
  CHECK(turning_up().verdict == Verdict::fail);
  project.panels.front().properties.add("Panel_Handling", "TurningFrame", testing::property_of(true));
  CHECK(turning_up().verdict == Verdict::information);
}

TEST_CASE("Withdrawal of a screw of 8 mm with 80 mm of thread in C24") {
  // EN 1995-1-1:2004+A1:2008 (8.38) to (8.41), from memory, worked by hand: f_ax,k = 0.52·8^−0.5·80^−0.1·350^0.8 =
  // 0.52·0.35355·0.64517·108.47 = 12.866 N/mm²; F_ax,Rk = 12.866·8·80 = 8.234 kN for one screw.
  const auto one = withdrawal({1.0, 0.008, 0.080, 350.0});
  REQUIRE(one.has_value());
  CHECK(one->strength_pa / 1e6 == Approx(12.866).epsilon(1e-3));
  CHECK(one->resistance_n == Approx(8234.0).epsilon(1e-3));
  const auto four = withdrawal({4.0, 0.008, 0.080, 350.0});
  CHECK(four->resistance_n / one->resistance_n == Approx(std::pow(4.0, 0.9)).epsilon(1e-12));
  // k_d lessens thin screws; the expression ends at 6 mm and at 6·d of thread.
  CHECK(withdrawal({1.0, 0.006, 0.060, 350.0})->diameter_factor == Approx(0.75));
  CHECK_FALSE(withdrawal({1.0, 0.005, 0.060, 350.0}).has_value());
  CHECK_FALSE(withdrawal({1.0, 0.008, 0.040, 350.0}).has_value());
}

TEST_CASE("A plate held in two rows shares wind and eccentric weight") {
  // Equilibrium by hand: 2.0 kPa on 4 m by half of 3 m in 5 brackets, γ 1.5, no spacing given: 3.6 kN; 12 kN at 0.2 m
  // before the frame over rows 3 m apart, γ 1.35: 0.216 kN and 3.24 kN of shear.
  FrameActions actions;
  actions.width_m = 4.0;
  actions.wind_pa = 2000.0;
  actions.wind_height_m = 1.5;
  actions.weight_n = 12000.0;
  actions.eccentricity_m = 0.2;
  actions.rows_apart_m = 3.0;
  actions.brackets_in_row = 5.0;
  const BracketForces forces = bracket_forces(actions, 1.35, 1.5);
  CHECK(forces.across_n == Approx(3600.0));
  CHECK(forces.couple_n == Approx(216.0));
  CHECK(forces.shear_n == Approx(3240.0));
  // Persons leaning with 1.0 kN/m, ψ_0 0.7, beside wind with ψ_0 0.6, on 0.8 m of row: wind leads, 1.5 · (3.0 + 0.7) ·
  // 0.8 = 4.44 kN; with 4.0 kN/m the persons do, 1.5 · (0.6 · 3.0 + 4.0) · 0.8 = 6.96 kN (EN 1990:2002, 6.4.3.2).
  actions.wind_psi0 = 0.6;
  actions.barrier_psi0 = 0.7;
  actions.barrier_n_per_m = 1000.0;
  CHECK(bracket_forces(actions, 1.35, 1.5).across_n == Approx(4440.0));
  actions.barrier_n_per_m = 4000.0;
  CHECK(bracket_forces(actions, 1.35, 1.5).across_n == Approx(6960.0));
  CHECK(bracket_forces(actions, 1.35, 1.5).barrier_n == Approx(4800.0));
  // Brackets 1.2 m apart in studs at 0.6 m: a stud of 0.6 m at the bracket and half of its two neighbours, 1.2 m in
  // all.
  actions.bracket_spacing_m = 1.2;
  actions.stud_spacing_m = 0.6;
  actions.stud_width_m = 0.6;
  CHECK(wind_width_m(actions) == Approx(1.2));
}
