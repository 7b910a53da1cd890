// K. W. Johansen, Theory of timber connections, IABSE Publications 9, 1949: each failure mode solved here from the
// equilibrium of a fastener in rigid-plastic members, by bisection, against the closed forms of EN 1995-1-1:2004 (8.6).
// The code raises modes d and e by 1.05 and mode f by 1.15 for the smaller γM of steel, which is taken off again. Both
// sides are exact, so the tolerance is that of the bisection.
#include <catch2/catch.hpp>
#include <cmath>

#include "plugins/structural/fixings/fasteners.h"

using namespace panel_dossier::structural;

namespace {

constexpr double kExact = 1e-9;

ShearPlane plane_of(double t1_m, double t2_m) {
  ShearPlane plane;
  plane.thickness_m = t1_m;
  plane.penetration_m = t2_m;
  plane.diameter_m = 0.0028;
  plane.panel_embedment_pa = 40e6;
  plane.timber_embedment_pa = 22e6;
  plane.yield_moment_nm = 2.6;
  return plane;
}

/// The root of a function that rises from a value below zero.
template <typename Function>
double root(Function f, double high) {
  double low = 0.0;
  for (int i = 0; i < 200; ++i) {
    const double middle = (low + high) / 2.0;
    (f(middle) < 0.0 ? low : high) = middle;
  }
  return (low + high) / 2.0;
}

/// Moment at the shear plane of a part of the fastener that turns as a rigid body in its member under a force F: the
/// member presses one way over p = (F/(fh·d) + t)/2 next to the plane, the other way beyond.
double rigid_moment(double force_n, double fh_d, double t_m) {
  const double p = (force_n / fh_d + t_m) / 2.0;
  return fh_d * (p * p - t_m * t_m / 2.0);
}

/// Moment that a force F gains between the shear plane and the plastic hinge, where the shear is zero.
double to_hinge(double force_n, double fh_d) {
  return force_n * force_n / (2.0 * fh_d);
}

}  // namespace

TEST_CASE("Johansen's modes follow from the equilibrium of the fastener") {
  for (const double t1 : {0.009, 0.012, 0.025}) {
    for (const double t2 : {0.020, 0.038, 0.060}) {
      const ShearPlane plane = plane_of(t1, t2);
      const auto modes = failure_modes(plane);
      const double fd1 = plane.panel_embedment_pa * plane.diameter_m;
      const double fd2 = plane.timber_embedment_pa * plane.diameter_m;
      const double my = plane.yield_moment_nm;
      const double high = 1e6;
      INFO("t1 " << t1 << " m, t2 " << t2 << " m");
      CHECK(modes[0].johansen_n == Approx(fd1 * t1).epsilon(kExact));
      CHECK(modes[1].johansen_n == Approx(fd2 * t2).epsilon(kExact));
      const double c = root([&](double f) { return rigid_moment(f, fd1, t1) + rigid_moment(f, fd2, t2); }, high);
      CHECK(modes[2].johansen_n == Approx(c).epsilon(kExact));
      const double d = root([&](double f) { return rigid_moment(f, fd1, t1) + to_hinge(f, fd2) - my; }, high);
      CHECK(modes[3].johansen_n == Approx(1.05 * d).epsilon(kExact));
      const double e = root([&](double f) { return rigid_moment(f, fd2, t2) + to_hinge(f, fd1) - my; }, high);
      CHECK(modes[4].johansen_n == Approx(1.05 * e).epsilon(kExact));
      const double f2 = root([&](double f) { return to_hinge(f, fd1) + to_hinge(f, fd2) - 2.0 * my; }, high);
      CHECK(modes[5].johansen_n == Approx(1.15 * f2).epsilon(kExact));
    }
  }
}

TEST_CASE("A slender fastener yields twice, a stout one crushes the thinner member") {
  ShearPlane slender = plane_of(0.050, 0.080);
  CHECK(governing_mode(failure_modes(slender)).name == 'f');
  ShearPlane stout = plane_of(0.004, 0.080);
  stout.yield_moment_nm = 1e3;
  CHECK(governing_mode(failure_modes(stout)).name == 'a');
}

TEST_CASE("The rope effect is a quarter of the withdrawal capacity within its limit, in modes c to f alone") {
  // EN 1995-1-1:2004 8.2.2(2): round nails 15 %.
  ShearPlane plane = plane_of(0.012, 0.038);
  plane.withdrawal_n = 1e6;
  plane.rope_limit = 0.15;
  const auto limited = failure_modes(plane);
  CHECK(limited[0].rope_n == 0.0);
  CHECK(limited[1].rope_n == 0.0);
  for (std::size_t i = 2; i < 6; ++i) CHECK(limited[i].rope_n == Approx(0.15 * limited[i].johansen_n));
  plane.withdrawal_n = 100.0;
  CHECK(failure_modes(plane)[5].rope_n == Approx(25.0));
}

TEST_CASE("Embedment and yield moment by their formulas, worked by hand") {
  // (8.22) for OSB 12 mm and d = 3.0 mm: 65·3^−0.7·12^0.1 = 65·0.46347·1.28209 = 38.62 N/mm². (8.20) for plywood of 500
  // kg/m³: 0.11·500·3^−0.3 = 55·0.71922 = 39.56. (8.15) for ρk = 350: 0.082·350·0.71922 = 20.64. (8.14) with fu = 600:
  // 180·3^2.6 = 180·17.3986 = 3131.7 Nmm. Five digits were carried by hand.
  CHECK(panel_embedment_pa("OSB/3", 0.003, 0.012, {}).value() == Approx(38.62e6).epsilon(2e-4));
  CHECK(panel_embedment_pa("plywood", 0.003, 0.012, 500.0).value() == Approx(39.56e6).epsilon(2e-4));
  CHECK(timber_embedment_pa(350.0, 0.003) == Approx(20.64e6).epsilon(2e-4));
  CHECK(yield_moment_nm(600e6, 0.003) == Approx(3.1317).epsilon(2e-4));
  CHECK_FALSE(panel_embedment_pa("plywood", 0.003, 0.012, {}).has_value());
  CHECK_FALSE(panel_embedment_pa("cork", 0.003, 0.012, {}).has_value());
}
