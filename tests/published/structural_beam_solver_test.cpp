// The beam solver against textbook closed forms of continuous beams and overhangs (table of beam formulas, for example
// Young and Budynas, Roark's Formulas for Stress and Strain, 2002, table 8.1; coefficients of continuous beams from the
// three-moment equation of Clapeyron, 1857; from memory) and against virtual work. The method is exact for these loads,
// so the tolerance is rounding alone unless a wider one is reasoned beside it.
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "plugins/structural/basis/beam_solver.h"

using namespace panel_dossier::structural;

namespace {

constexpr double kLoad_n_per_m = 600.0;
constexpr double kBending_nm2 = 126e3;
constexpr double kShear_n = 3.75e6;
constexpr double kRounding = 1e-8;  ///< the equations lose some eight digits to the short stretches

Beam beam_on(std::vector<double> supports_m, double length_m) {
  Beam beam;
  beam.length_m = length_m;
  beam.supports_m = std::move(supports_m);
  beam.bending_stiffness_nm2 = kBending_nm2;
  return beam;
}

template <typename Function>
double simpson(double length, Function f) {
  constexpr int kIntervals = 8;
  const double step = length / kIntervals;
  double sum = f(0.0) + f(length);
  for (int i = 1; i < kIntervals; ++i) sum += (i % 2 == 1 ? 4.0 : 2.0) * f(i * step);
  return sum * step / 3.0;
}

}  // namespace

TEST_CASE("A simple span under uniform load: w·l/2, w·l²/8, 5·w·l⁴/(384·E·I)") {
  const double l = 2.91;
  const BeamResult result = solve_beam(beam_on({0.0, l}, l), {{0.0, l, kLoad_n_per_m}}, {});
  CHECK(largest_shear_n(result) == Approx(kLoad_n_per_m * l / 2.0).epsilon(kRounding));
  CHECK(largest_moment_nm(result) == Approx(kLoad_n_per_m * l * l / 8.0).epsilon(kRounding));
  CHECK(largest_deflection_m(result, 0.0, l) ==
        Approx(5.0 * kLoad_n_per_m * std::pow(l, 4) / (384.0 * kBending_nm2)).epsilon(kRounding));
}

TEST_CASE("Two equal spans: 0.625·w·l of shear at the inner support, w·l²/8 over it, 0.375·w·l at the ends") {
  const double l = 3.6;
  const BeamResult result = solve_beam(beam_on({0.0, l, 2.0 * l}, 2.0 * l), {{0.0, 2.0 * l, kLoad_n_per_m}}, {});
  const double wl = kLoad_n_per_m * l;
  CHECK(largest_shear_n(result) == Approx(0.625 * wl).epsilon(kRounding));
  CHECK(largest_moment_nm(result) == Approx(wl * l / 8.0).epsilon(kRounding));
  CHECK(result.support_moments_nm[1] == Approx(-wl * l / 8.0).epsilon(kRounding));
  CHECK(result.reactions_n[0] == Approx(0.375 * wl).epsilon(kRounding));
  CHECK(result.reactions_n[1] == Approx(1.25 * wl).epsilon(kRounding));
  // The largest deflection, w·l⁴/(184.6·E·I) at 0.4215·l, lies between two points and is read from a parabola through
  // three; the textbook's figure is rounded to 0.03 %.
  CHECK(largest_deflection_m(result, 0.0, l) ==
        Approx(kLoad_n_per_m * std::pow(l, 4) / (184.6 * kBending_nm2)).epsilon(0.0005));
}

TEST_CASE("Three equal spans: reactions 0.4 and 1.1, moments 0.08 and -0.1") {
  const double l = 3.0;
  const double wl = kLoad_n_per_m * l;
  const BeamResult result =
      solve_beam(beam_on({0.0, l, 2.0 * l, 3.0 * l}, 3.0 * l), {{0.0, 3.0 * l, kLoad_n_per_m}}, {});
  CHECK(result.reactions_n[0] == Approx(0.4 * wl).epsilon(kRounding));
  CHECK(result.reactions_n[1] == Approx(1.1 * wl).epsilon(kRounding));
  CHECK(result.support_moments_nm[1] == Approx(-0.1 * wl * l).epsilon(kRounding));
  double sagging = 0.0;
  for (const BeamPoint& point : result.points) sagging = std::max(sagging, point.moment_nm);
  CHECK(sagging == Approx(0.08 * wl * l).epsilon(kRounding));
}

TEST_CASE("Unequal spans satisfy Clapeyron's equation of three moments") {
  // M0·l1 + 2·M1·(l1 + l2) + M2·l2 = -w·(l1³ + l2³)/4 with M0 = M2 = 0.
  const double l1 = 2.4;
  const double l2 = 3.7;
  const BeamResult result = solve_beam(beam_on({0.0, l1, l1 + l2}, l1 + l2), {{0.0, l1 + l2, kLoad_n_per_m}}, {});
  CHECK(2.0 * result.support_moments_nm[1] * (l1 + l2) ==
        Approx(-kLoad_n_per_m * (l1 * l1 * l1 + l2 * l2 * l2) / 4.0).epsilon(kRounding));
}

TEST_CASE("A point load at the middle: P·l/4 and P·l³/(48·E·I)") {
  const double l = 0.9;
  const BeamResult result = solve_beam(beam_on({0.0, l}, l), {}, {{l / 2.0, 1500.0}});
  CHECK(largest_moment_nm(result) == Approx(1500.0 * l / 4.0).epsilon(kRounding));
  CHECK(largest_deflection_m(result, 0.0, l) == Approx(1500.0 * l * l * l / (48.0 * kBending_nm2)).epsilon(kRounding));
}

TEST_CASE("A cantilever: w·a²/2, w·a⁴/(8·E·I) + w·a²/(2·S)") {
  const double a = 1.2;
  Beam beam = beam_on({0.0}, a);
  beam.clamped_start = true;
  beam.shear_stiffness_n = kShear_n;
  const BeamResult result = solve_beam(beam, {{0.0, a, kLoad_n_per_m}}, {});
  CHECK(largest_moment_nm(result) == Approx(kLoad_n_per_m * a * a / 2.0).epsilon(kRounding));
  CHECK(largest_deflection_m(result, 0.0, a) ==
        Approx(kLoad_n_per_m * std::pow(a, 4) / (8.0 * kBending_nm2) + kLoad_n_per_m * a * a / (2.0 * kShear_n))
            .epsilon(kRounding));
}

TEST_CASE("Shear adds w·l²/(8·S) to a simple span") {
  const double l = 2.91;
  Beam beam = beam_on({0.0, l}, l);
  const double bent = largest_deflection_m(solve_beam(beam, {{0.0, l, kLoad_n_per_m}}, {}), 0.0, l);
  beam.shear_stiffness_n = kShear_n;
  const double both = largest_deflection_m(solve_beam(beam, {{0.0, l, kLoad_n_per_m}}, {}), 0.0, l);
  CHECK(both - bent == Approx(kLoad_n_per_m * l * l / (8.0 * kShear_n)).epsilon(1e-6));
}

TEST_CASE("The tip of an overhanging beam moves as virtual work says") {
  // u = ∫ M·m/(E·I) + ∫ V·v/S; Simpson's rule is exact for the cubics in it.
  for (const double a : {0.3, 1.2, 2.4}) {
    for (const double l : {2.4, 3.6}) {
      const double w = kLoad_n_per_m;
      const double over = simpson(a, [&](double x) { return w * (a - x) * (a - x) / 2.0 * (a - x); });
      const double below = simpson(l, [&](double x) { return w * a * a / 2.0 * x / l * (a * x / l); });
      const double over_shear = simpson(a, [&](double x) { return w * (a - x); });
      const double below_shear = simpson(l, [&](double) { return w * a * a / (2.0 * l) * (a / l); });
      Beam beam = beam_on({0.0, l}, l + a);
      beam.shear_stiffness_n = kShear_n;
      const BeamResult result = solve_beam(beam, {{l, l + a, w}}, {});
      INFO("projection " << a << " m above a span of " << l << " m");
      CHECK(result.points.back().deflection_m ==
            Approx((over + below) / kBending_nm2 + (over_shear + below_shear) / kShear_n).epsilon(1e-7));
    }
  }
}
