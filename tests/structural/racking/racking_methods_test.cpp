// Methods A and B of EN 1995-1-1:2004+A1:2008 9.2.4, the code's own expressions written once more by hand; method A
// also from the equilibrium of a sheet, fastener by fastener.
#include <catch2/catch.hpp>
#include <cmath>

#include "plugins/structural/racking/strips.h"

using namespace panel_dossier::structural;

namespace {

struct Resultant {
  double along_n = 0.0;
  double upright_n = 0.0;
  double moment_nm = 0.0;  ///< about the lower left corner
};

/// What the frame pushes a sheet with when every fastener along its edges carries `force_n` in the direction of its
/// edge, round the sheet: the lower bound of plastic theory (a state in equilibrium that nowhere exceeds the
/// fasteners).
Resultant edge_forces(double force_n, double width_m, double height_m, double spacing_m, bool without_head) {
  Resultant sum;
  const auto columns = static_cast<int>(std::lround(width_m / spacing_m));
  const auto rows = static_cast<int>(std::lround(height_m / spacing_m));
  for (int i = 0; i < columns; ++i) {
    if (!without_head) {
      sum.along_n += force_n;
      sum.moment_nm -= force_n * height_m;
    }
    sum.along_n -= force_n;  // the sole, which passes through the corner
  }
  for (int i = 0; i < rows; ++i) {
    sum.upright_n -= force_n;  // the left edge, through the corner too
    sum.upright_n += force_n;
    sum.moment_nm += force_n * width_m;
  }
  return sum;
}

}  // namespace

// Statics alone: no clause is used but for the factors 1.2 and ci, which are restated, from memory.
TEST_CASE("The racking load of method A is what fasteners in equilibrium round a sheet pass at the head") {
  for (const double width_m : {1.2, 0.9, 0.6}) {
    const Resultant whole = edge_forces(500.0, width_m, 2.4, 0.1, false);
    CHECK(whole.along_n == Approx(0.0).margin(1e-9));
    CHECK(whole.upright_n == Approx(0.0).margin(1e-9));
    CHECK(whole.moment_nm == Approx(0.0).margin(1e-6));
    // Without the head's fasteners the rest pushes back with the load that the head brings in.
    const double load_n = -edge_forces(500.0, width_m, 2.4, 0.1, true).along_n;
    CHECK(racking_method_a_n(500.0, width_m, 2.4, 0.1) == Approx(1.2 * shape_factor(width_m, 2.4) * load_n));
  }
}

TEST_CASE("Method A is an even shear flow along the sheet's edges") {
  // Each fastener carries f at s: the flow f/s over the width b resists f·b/s; the code counts 1.2·f for edges and,
  // for a sheet narrower than half of its height, less in proportion.
  const double f = 500.0;
  const double s = 0.1;
  CHECK(racking_method_a_n(f, 1.25, 2.4, s) == Approx(1.2 * f / s * 1.25));
  CHECK(racking_method_a_n(f, 1.2, 2.4, s) == Approx(1.2 * f / s * 1.2));
  CHECK(racking_method_a_n(f, 0.9, 2.4, s) == Approx(1.2 * f / s * 0.9 * 0.75));
  CHECK(racking_method_a_n(f, 0.6, 2.4, s) == Approx(1.2 * f / s * 0.6 * 0.5));
  CHECK(racking_method_a_n(f, 0.599, 2.4, s) == 0.0);
}

TEST_CASE("Method B meets its own reference wall") {
  // h = b = 2.4 m without vertical load at s = s0·0.5: kd = ki,q = kn = 1 and ks = 1/(0.43 + 0.57) = 1, so the wall
  // resists Ff,Rd·b/s0 exactly. s0 = 9700·2.87/350 = 79.5 mm.
  const double s0 = 9700.0 * 0.00287 / 350.0;
  const MethodB b = racking_method_b(500.0, 0.00287, 350.0, 2.4, 2.4, s0 / 2.0, 0.0, 0.0);
  CHECK(b.basic_spacing_m == Approx(0.0795).epsilon(1e-3));
  CHECK(b.dimension_factor == 1.0);
  CHECK(b.load_factor == 1.0);
  CHECK(b.spacing_factor == Approx(1.0));
  CHECK(b.resistance_n == Approx(500.0 * 2.4 / s0));
}

TEST_CASE("Method B: width, load and second face") {
  const auto wall = [](double width_m, double load, double second) {
    return racking_method_b(500.0, 0.003, 350.0, width_m, 2.4, 0.1, load, second);
  };
  CHECK(wall(1.2, 0.0, 0.0).dimension_factor == 0.5);
  CHECK(wall(4.8, 0.0, 0.0).dimension_factor == Approx(std::pow(2.0, 0.4)));
  CHECK(wall(9.6, 0.0, 0.0).dimension_factor == Approx(std::pow(2.0, 0.4)));
  CHECK(wall(2.4, 10e3, 0.0).load_factor == Approx(1.0 + 0.83 - 0.08));
  CHECK(wall(2.4, 0.0, 1.0).sheathing_factor == 1.5);
}
