// Buckling and bending of studs against closed forms and an independent finite-element beam-column. 32 cubic elements
// give the first buckling load and second-order deflections to better than 1e-6, which is the tolerance where both
// sides are exact theory; wider ones are reasoned beside them.
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>

#include "plugins/structural/basis/member_resistance.h"
#include "plugins/structural/basis/timber.h"
#include "plugins/structural/studs/stud_report.h"
#include "tests/structural/structural_tables.h"
#include "tests/support/beam_column.h"

using namespace panel_dossier;
using namespace panel_dossier::structural;
using panel_dossier::testing::BeamColumn;

namespace {

constexpr int kElements = 32;
constexpr Section kStud{0.045, 0.145};
constexpr double kModulusFifth_pa = 7.4e9;
constexpr double kCompression_pa = 21e6;

double stiffness_nm2() {
  return kModulusFifth_pa * kStud.second_moment_m4();
}

double slenderness(double length_m) {
  return length_m / (kStud.depth_m / std::sqrt(12.0));
}

}  // namespace

TEST_CASE("The finite-element member buckles at Euler's load") {
  // L. Euler's column: π²·E·I/l².
  const double euler_n = std::pow(std::numbers::pi / 2.91, 2) * stiffness_nm2();
  CHECK(BeamColumn(2.91, stiffness_nm2(), kElements).buckling_load_n() == Approx(euler_n).epsilon(1e-6));
}

TEST_CASE("Relative slenderness is the root of squash load over buckling load") {
  // EN 1995-1-1:2004 (6.21) restated as λrel = √(fc,0,k·A/Ncr) with Ncr from the finite-element member.
  for (const double length_m : {1.0, 2.4, 2.91, 5.0}) {
    const double buckling_n = BeamColumn(length_m, stiffness_nm2(), kElements).buckling_load_n();
    CHECK(relative_slenderness(slenderness(length_m), kCompression_pa, kModulusFifth_pa) ==
          Approx(std::sqrt(kCompression_pa * kStud.area_m2() / buckling_n)).epsilon(1e-6));
  }
}

TEST_CASE("The buckling factor solves the Ayrton-Perry equation") {
  // (1 − kc)·(1 − kc·λrel²) = βc·(λrel − 0.3)·kc: the column formula behind EN 1995-1-1:2004 (6.25) to (6.28); exact.
  for (const double beta : {0.1, 0.2}) {
    for (const double lambda : {0.35, 0.7, 1.0, 1.5, 2.5, 4.0}) {
      const double kc = buckling_factor(lambda, beta);
      CHECK((1.0 - kc) * (1.0 - kc * lambda * lambda) == Approx(beta * (lambda - 0.3) * kc).epsilon(1e-9));
    }
  }
}

TEST_CASE("A perfectly straight member's buckling factor is Euler's") {
  CHECK(buckling_factor(2.0, 0.0) == Approx(1.0 / 4.0).epsilon(1e-9));
}

TEST_CASE("A bowed stud at its buckling resistance just reaches the compression strength by second-order theory") {
  // The bow that EN 1995-1-1's kc stands for is e = βc·(λrel − 0.3)·W/A. The finite-element member with that bow,
  // under N = kc·fc,0,k·A on its deflected shape, must show N/A + N·(e + u)/W = fc,0,k at mid-height.
  for (const double length_m : {1.5, 2.91, 4.5}) {
    const double lambda = relative_slenderness(slenderness(length_m), kCompression_pa, kModulusFifth_pa);
    const double bow_m = 0.2 * (lambda - 0.3) * kStud.section_modulus_m3() / kStud.area_m2();
    const double axial_n = buckling_factor(lambda, 0.2) * kCompression_pa * kStud.area_m2();
    const BeamColumn stud(length_m, stiffness_nm2(), kElements);
    const double deflection_m = stud.deflection_m(stud.displacements(0.0, axial_n, bow_m), kElements / 2);
    const double stress_pa = axial_n / kStud.area_m2() + axial_n * (bow_m + deflection_m) / kStud.section_modulus_m3();
    INFO("length " << length_m << " m");
    CHECK(stress_pa == Approx(kCompression_pa).epsilon(1e-5));
  }
}

TEST_CASE("Compression with bending by the code's sum is safe by second-order theory") {
  // Axial load and wind that together use the sum (6.23) exactly. On the deflected, bowed finite-element member the
  // section at mid-height must then satisfy the code's own section expression (6.19) with the second-order moment; no
  // tolerance, since safe means at most 1. Added linearly the same stresses reach up to 1.2: the code counts on the
  // timber yielding in compression, which is what the square in (6.19) stands for.
  Resistance resistance;
  resistance.bending_pa = 24e6;
  resistance.compression_parallel_pa = kCompression_pa;
  resistance.modulus_fifth_pa = kModulusFifth_pa;
  for (const double length_m : {1.5, 2.91, 4.5}) {
    const double lambda = relative_slenderness(slenderness(length_m), kCompression_pa, kModulusFifth_pa);
    const double bow_m = 0.2 * (lambda - 0.3) * kStud.section_modulus_m3() / kStud.area_m2();
    const BeamColumn stud(length_m, stiffness_nm2(), kElements);
    for (const double share : {0.2, 0.4, 0.6, 0.8, 1.0}) {
      const double axial_n = share * buckling_factor(lambda, 0.2) * kCompression_pa * kStud.area_m2();
      const double moment_nm = (1.0 - share) * resistance.bending_pa * kStud.section_modulus_m3();
      const double wind_n_per_m = 8.0 * moment_nm / (length_m * length_m);
      const Restraint held{length_m, length_m, true, true};
      const auto code = verify_stability(kStud, resistance, held, {axial_n, moment_nm, 0.0});
      CHECK(code.strong_axis_sum == Approx(1.0).epsilon(1e-9));

      const double deflection_m = stud.deflection_m(stud.displacements(wind_n_per_m, axial_n, bow_m), kElements / 2);
      const double second_order_nm = moment_nm + axial_n * (bow_m + deflection_m);
      const auto section = verify_stability(kStud, resistance, held, {axial_n, second_order_nm, 0.0});
      INFO("length " << length_m << " m, share of compression " << share);
      CHECK(section.section_sum <= 1.0);
      CHECK(section.section_sum > code.section_sum);
    }
  }
}

TEST_CASE("The deflected shape is that of the finite-element beam") {
  // Cubic elements with consistent loads are exact at their nodes for a uniform load. They do not deform in shear, so
  // the shear stiffness is infinite.
  const double w = 600.0;
  StudSystem system;
  system.length_m = 2.91;
  system.supports_m = {0.0, 2.91};
  const Series series = deflected_shape(system, w, {}, stiffness_nm2(), std::numeric_limits<double>::infinity(), 0.01);
  const BeamColumn beam(2.91, stiffness_nm2(), 20);
  const auto displacements = beam.displacements(w, 0.0, 0.0);
  for (int node = 0; node <= 20; ++node) {
    CHECK(series.curves[0].points[static_cast<std::size_t>(node)].y ==
          Approx(1e3 * beam.deflection_m(displacements, node)).margin(1e-9));
  }
}

TEST_CASE("Lateral buckling stress is the critical moment of a narrow rectangle over its section modulus") {
  // Closed form for uniform moment, π·√(E·Iz·G·Itor)/(lef·Wy), EN 1995-1-1:2004 (6.31), with G = E/16 and
  // Itor = h·b³/3·(1 − 0.63·b/h). The code's rounded (6.32) drops the bracket and rounds π·√(1/16)... to 0.78, so it
  // lies within 15 % above the closed form for b/h up to 1/3: the bracket's root is 0.89 there.
  Resistance resistance;
  resistance.bending_pa = 24e6;
  resistance.compression_parallel_pa = kCompression_pa;
  resistance.modulus_fifth_pa = kModulusFifth_pa;
  const double length_m = 2.91;
  const auto code = verify_stability(kStud, resistance, {length_m, length_m, false, false}, {0.0, 100.0, 0.0});
  const double lef = 0.9 * length_m + 2.0 * kStud.depth_m;
  const double iz = kStud.depth_m * std::pow(kStud.width_m, 3) / 12.0;
  const double itor = kStud.depth_m * std::pow(kStud.width_m, 3) / 3.0 * (1.0 - 0.63 * kStud.width_m / kStud.depth_m);
  const double exact =
      std::numbers::pi * kModulusFifth_pa * std::sqrt(iz * itor / 16.0) / (lef * kStud.section_modulus_m3());
  CHECK(code.critical_bending_stress_pa >= exact);
  CHECK(code.critical_bending_stress_pa <= 1.15 * exact);
}

TEST_CASE("A column of glued laminated timber is as a worked example prints it") {
  // Wendehorst, Beispiele aus der Baupraxis, 6th edition, chapter 8, example 2.6; second hand. GL28c 160 x 320, 5.0 m
  // about both axes, 180 kN, service class 1, permanent, k_mod 0.6, γ_M 1.3. The slenderness printed about z needs an
  // E_0,05 of 10,450 N/mm²; with the 10,400 N/mm² of the class 1 % is the tolerance there and 0.1 % about y.
  const auto timber = timber_class(testing::structural_tables().strength_classes, "GL28c");
  REQUIRE(timber.has_value());
  Resistance resistance;
  resistance.bending_pa = timber->bending_pa.value;
  resistance.compression_parallel_pa = timber->compression_parallel_pa.value;
  resistance.modulus_fifth_pa = timber->modulus_fifth_pa.value;
  resistance.modification_factor = 0.6;
  resistance.partial_factor = 1.3;
  resistance.straightness_factor = straightness_factor(timber->family);
  const auto column = verify_stability({0.160, 0.320}, resistance, {5.0, 5.0, false, true}, {180e3, 0.0, 0.0});
  // k of (6.27) and (6.28) from kc: 1/kc = k + √(k² − λ²), so that k = (1/kc + kc·λ²)/2.
  const auto k = [](double factor, double lambda) { return (1.0 / factor + factor * lambda * lambda) / 2.0; };
  CHECK(column.slenderness_y == Approx(54.13).epsilon(1e-3));
  CHECK(column.relative_slenderness_y == Approx(0.8277).epsilon(1e-3));
  CHECK(k(column.buckling_factor_y, column.relative_slenderness_y) == Approx(0.8689).epsilon(1e-3));
  CHECK(column.buckling_factor_y == Approx(0.8823).epsilon(1e-3));
  CHECK(column.slenderness_z == Approx(108.25).epsilon(1e-2));
  CHECK(column.relative_slenderness_z == Approx(1.6514).epsilon(1e-2));
  CHECK(k(column.buckling_factor_z, column.relative_slenderness_z) == Approx(1.931).epsilon(1e-2));
  CHECK(column.buckling_factor_z == Approx(0.341).epsilon(1e-2));
  CHECK(column.weak_axis_sum == Approx(0.93).epsilon(1e-2));
}
