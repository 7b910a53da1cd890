// Mechanically jointed sections against their limits, a textbook section and the layered beam with slip.
#include <Eigen/Dense>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>

#include "plugins/structural/studs/composite_stud.h"

using namespace panel_dossier::structural;

namespace {

constexpr double kRigid = std::numeric_limits<double>::infinity();

/// OSB/3 12 mm on both faces of 45 × 145 mm of C24, different widths and slip.
CompositeLayers two_sheets(double inner_slip, double outer_slip) {
  return {{{0.345, 0.012, 3800e6, inner_slip, 0.100},
           {0.045, 0.145, 11000e6, 0.0, 0.0},
           {0.195, 0.018, 3800e6, outer_slip, 0.300}}};
}

/// Amplitudes of a simple beam of three layers with slip between them under the load q·sin(πx/l): the differential
/// equations of K. Möhler, Über das Tragverhalten von Biegeträgern und Druckstäben mit zusammengesetzten Querschnitten
/// und nachgiebigen Verbindungsmitteln, 1956, which a sine satisfies exactly. Bernoulli's layers, one deflection.
struct LayeredBeam {
  double deflection_m = 0.0;
  Eigen::Vector3d force_n;        ///< axial force of the layers in the middle of the span
  Eigen::Vector2d shear_n_per_m;  ///< flow in the joints at the supports
};

LayeredBeam layered_beam(const CompositeLayers& layers, double span_m, double load_n_per_m) {
  const double p = std::numbers::pi / span_m;
  Eigen::Matrix4d energy = Eigen::Matrix4d::Zero();
  for (int i = 0; i < 3; ++i) {
    const CompositeLayer& layer = layers[static_cast<std::size_t>(i)];
    energy(i, i) += layer.modulus_pa * layer.area_m2() * p * p;
    energy(3, 3) += layer.modulus_pa * layer.second_moment_m4() * std::pow(p, 4);
  }
  const double slip_pa[] = {layers[0].slip_modulus_n_per_m / layers[0].spacing_m,
                            layers[2].slip_modulus_n_per_m / layers[2].spacing_m};
  Eigen::Vector4d slips[2];
  for (int j = 0; j < 2; ++j) {
    const auto upper = static_cast<std::size_t>(j);
    slips[j] = Eigen::Vector4d::Zero();
    slips[j](j) = -1.0;
    slips[j](j + 1) = 1.0;
    slips[j](3) = (layers[upper].depth_m + layers[upper + 1].depth_m) / 2.0 * p;
    energy += slip_pa[j] * slips[j] * slips[j].transpose();
  }
  const Eigen::Vector4d found = energy.fullPivLu().solve(Eigen::Vector4d(0.0, 0.0, 0.0, load_n_per_m));
  LayeredBeam beam;
  beam.deflection_m = found(3);
  for (int i = 0; i < 3; ++i) {
    const CompositeLayer& layer = layers[static_cast<std::size_t>(i)];
    beam.force_n(i) = -layer.modulus_pa * layer.area_m2() * p * found(i);
  }
  for (int j = 0; j < 2; ++j) beam.shear_n_per_m(j) = slip_pa[j] * slips[j].dot(found);
  return beam;
}

}  // namespace

TEST_CASE("Without connection the layers bend each by itself: Σ E·I") {
  const CompositeLayers layers = two_sheets(0.0, 0.0);
  const CompositeSection section = composite_section(layers, 2.91);
  double sum_nm2 = 0.0;
  for (const CompositeLayer& layer : layers) sum_nm2 += layer.modulus_pa * layer.second_moment_m4();
  CHECK(section.cooperation == std::array<double, 3>{0.0, 1.0, 0.0});
  CHECK(section.stiffness_nm2 == Approx(sum_nm2));
  CHECK(section.normal_stress_pa(0, 1000.0) == 0.0);
  CHECK(section.fastener_load_n(0, 1000.0) == 0.0);
}

TEST_CASE("With a rigid connection the parallel axis theorem holds") {
  const CompositeLayers layers = two_sheets(kRigid, kRigid);
  const CompositeSection section = composite_section(layers, 2.91);
  // About the inner face: centres at 6, 84.5 and 166 mm.
  const double centres_m[] = {0.006, 0.0845, 0.166};
  double area_n = 0.0;
  double first_nm = 0.0;
  double second_nm2 = 0.0;
  for (std::size_t i = 0; i < 3; ++i) {
    const double stretch_n = layers[i].modulus_pa * layers[i].area_m2();
    area_n += stretch_n;
    first_nm += stretch_n * centres_m[i];
    second_nm2 += layers[i].modulus_pa * layers[i].second_moment_m4() + stretch_n * centres_m[i] * centres_m[i];
  }
  const double axis_m = first_nm / area_n;
  CHECK(section.cooperation == std::array<double, 3>{1.0, 1.0, 1.0});
  CHECK(section.distance_m[0] == Approx(axis_m - 0.006));
  CHECK(section.distance_m[2] == Approx(0.166 - axis_m));
  CHECK(section.stiffness_nm2 == Approx(second_nm2 - first_nm * first_nm / area_n));
}

TEST_CASE("A T-section of one material, glued, has the second moment of any textbook") {
  // Flange 200 × 40 on a web of 40 × 200: 8000 mm² each, centres 120 mm apart, so the centroid lies midway.
  // I = 200·40³/12 + 40·200³/12 + 2·8000·60² = 85.333e6 mm⁴.
  const CompositeLayers layers{
      {{0.200, 0.040, 10e9, kRigid, 0.1}, {0.040, 0.200, 10e9, 0.0, 0.0}, {0.0, 0.0, 0.0, 0.0, 0.0}}};
  const CompositeSection section = composite_section(layers, 4.0);
  CHECK(section.distance_m[0] == Approx(0.060));
  CHECK(section.distance_m[kWeb] == Approx(0.060));
  CHECK(section.stiffness_nm2 == Approx(10e9 * (200.0 * 64e3 / 12.0 + 40.0 * 8e6 / 12.0 + 16000.0 * 3600.0) * 1e-12));
  // Edge of the web, 160 mm from the centroid: M·z/I, as (B.7) and (B.8) together.
  const double edge_pa = section.normal_stress_pa(kWeb, 5000.0) + section.bending_stress_pa(kWeb, 5000.0);
  CHECK(edge_pa == Approx(5000.0 * 0.160 * 10e9 / section.stiffness_nm2));
  // Shear flow V·S/I over the spacing.
  CHECK(section.fastener_load_n(0, 3000.0) ==
        Approx(3000.0 * 0.200 * 0.040 * 0.060 * 10e9 / section.stiffness_nm2 * 0.1));
}

TEST_CASE("Under a sine load annex B is the exact solution of the layered beam with slip") {
  // Only rounding of the solution of four equations is allowed.
  const double span_m = 2.91;
  const double load = 900.0;
  const double p = std::numbers::pi / span_m;
  for (const auto& [inner, outer] : {std::pair{7e5, 7e5}, std::pair{3e5, 2e6}, std::pair{1e7, 5e4}}) {
    const CompositeLayers layers = two_sheets(inner, outer);
    const LayeredBeam exact = layered_beam(layers, span_m, load);
    const CompositeSection section = composite_section(layers, span_m);
    INFO("K " << inner << " and " << outer << " N/m");
    CHECK(load / (section.stiffness_nm2 * std::pow(p, 4)) == Approx(exact.deflection_m).epsilon(1e-9));
    const double moment_nm = load / (p * p);
    const double shear_n = load / p;
    for (const std::size_t i : {std::size_t{0}, std::size_t{2}}) {
      const auto row = static_cast<Eigen::Index>(i);
      CHECK(section.normal_stress_pa(i, moment_nm) * layers[i].area_m2() ==
            Approx(std::abs(exact.force_n(row))).epsilon(1e-9));
      CHECK(section.fastener_load_n(i, shear_n) ==
            Approx(std::abs(exact.shear_n_per_m(row / 2)) * layers[i].spacing_m).epsilon(1e-9));
    }
    CHECK(exact.force_n.sum() == Approx(0.0).margin(1e-6 * std::abs(exact.force_n(0))));
  }
}

TEST_CASE("Slip moduli are those of EN 1995-1-1:2004 table 7.1") {
  // From memory. ρ_m = 420 kg/m³, 420^1.5 = 8607.4: nail of 2.5 mm ·2.5^0.8/30, screw of 4 mm ·4/23.
  CHECK(slip_modulus_n_per_m(false, 420.0, 0.0025) == Approx(8607.4 * 2.0814 / 30.0 * 1e3).epsilon(1e-4));
  CHECK(slip_modulus_n_per_m(true, 420.0, 0.004) == Approx(8607.4 * 4.0 / 23.0 * 1e3).epsilon(1e-4));
}

TEST_CASE("Effective widths are those of EN 1995-1-1:2004 table 9.1") {
  // From memory: plywood 0.1·l and 20·h_f (25·h_f across the web), OSB 0.15·l and 25·h_f, particleboard 0.2·l, 30·h_f.
  CHECK(flange_limits("plywood", 3.0, 0.012)->shear_lag_m == Approx(0.30));
  CHECK(flange_limits("plywood", 3.0, 0.012)->buckling_m == Approx(0.24));
  CHECK(flange_limits("OSB/3", 3.0, 0.012)->shear_lag_m == Approx(0.45));
  CHECK(flange_limits("OSB/3", 3.0, 0.012)->buckling_m == Approx(0.30));
  CHECK(flange_limits("P5", 3.0, 0.016)->shear_lag_m == Approx(0.60));
  CHECK(flange_limits("P5", 3.0, 0.016)->buckling_m == Approx(0.48));
  CHECK_FALSE(flange_limits("gypsum", 3.0, 0.0125));
}
