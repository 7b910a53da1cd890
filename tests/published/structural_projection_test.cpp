// The part above the highest support: closed forms against the principle of virtual work, u = ∫ M·m/(E·I) + ∫ V·v/S,
// integrated numerically. Simpson's rule is exact for the cubics in it, so the tolerance is rounding alone.
#include <catch2/catch.hpp>

#include "plugins/structural/projection.h"

using namespace panel_dossier::structural;

namespace {

template <typename Function>
double simpson(double length, Function f) {
  constexpr int kIntervals = 8;
  const double step = length / kIntervals;
  double sum = f(0.0) + f(length);
  for (int i = 1; i < kIntervals; ++i) sum += (i % 2 == 1 ? 4.0 : 2.0) * f(i * step);
  return sum * step / 3.0;
}

}  // namespace

TEST_CASE("Tip deflection of an overhanging beam is that of virtual work") {
  constexpr double w = 600.0;
  constexpr double bending_nm2 = 126e3;
  constexpr double shear_n = 3.75e6;
  for (const double a : {0.3, 1.2, 2.4}) {
    for (const double l : {2.4, 3.6}) {
      const double over = simpson(a, [&](double x) { return w * (a - x) * (a - x) / 2.0 * (a - x); });
      const double below = simpson(l, [&](double x) { return w * a * a / 2.0 * x / l * (a * x / l); });
      const double over_shear = simpson(a, [&](double x) { return w * (a - x); });
      const double below_shear = simpson(l, [&](double) { return w * a * a / (2.0 * l) * (a / l); });
      INFO("projection " << a << " m above a span of " << l << " m");
      CHECK(tip_deflection_from_bending_m(a, l, w, bending_nm2) == Approx((over + below) / bending_nm2).epsilon(1e-12));
      CHECK(tip_deflection_from_shear_m(a, l, w, shear_n) ==
            Approx((over_shear + below_shear) / shear_n).epsilon(1e-12));
    }
  }
}

TEST_CASE("Without rotation at the support the overhang is the textbook cantilever") {
  // w·a⁴/(8·E·I), the limit for a span that vanishes.
  CHECK(tip_deflection_from_bending_m(1.2, 1e-9, 600.0, 126e3) ==
        Approx(600.0 * 1.2 * 1.2 * 1.2 * 1.2 / (8.0 * 126e3)).epsilon(1e-6));
}

TEST_CASE("What is left above the last whole span projects") {
  CHECK(height_above_last_support_m(12.0, 3.6) == Approx(1.2));
  CHECK(height_above_last_support_m(10.8, 3.6) == 0.0);
  CHECK(height_above_last_support_m(3.0, 3.6) == 0.0);
  CHECK(height_above_last_support_m(9.0, 3.0) == 0.0);
}
