// Dynamic thermal characteristics against closed solutions and an independent discretisation.
#include <catch2/catch.hpp>
#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

#include "core/api/support/units.h"
#include "plugins/thermal/periodic/dynamic_check.h"

using namespace panel_dossier::thermal;

namespace {

using Complex = std::complex<double>;

constexpr PeriodicLayer kConcrete{0.2 / 1.8, 0.2, 2400.0, 1000.0};
constexpr PeriodicLayer kInsulation{0.1 / 0.04, 0.1, 30.0, 1400.0};
constexpr PeriodicLayer kInnerSurface{0.13, 0.0, 0.0, 0.0};
constexpr PeriodicLayer kOuterSurface{0.04, 0.0, 0.0, 0.0};

/// Penetration depth in m: √(λ T / (π ρ c)).
double penetration_depth_m(const PeriodicLayer& layer) {
  const double conductivity = layer.thickness_m / layer.resistance_m2k_per_w;
  return std::sqrt(conductivity * panel_dossier::units::kSecondPerDay /
                   (std::numbers::pi * layer.density_kg_per_m3 * layer.specific_heat_j_per_kgk));
}

/// Heat flow outwards at the outer environment for a swing of 1 K inside, by a chain of many small resistances and
/// capacities: nothing in common with hyperbolic functions.
Complex chained_transmittance(const std::vector<PeriodicLayer>& layers) {
  constexpr int kCells = 4000;
  const Complex frequency(0.0, 2.0 * std::numbers::pi / panel_dossier::units::kSecondPerDay);
  // From outside inwards, for a flow of 1 W/m² outwards at 0 K.
  Complex temperature = 0.0;
  Complex flow = 1.0;
  for (auto layer = layers.rbegin(); layer != layers.rend(); ++layer) {
    const double capacity = layer->density_kg_per_m3 * layer->specific_heat_j_per_kgk * layer->thickness_m / kCells;
    const double half = layer->resistance_m2k_per_w / (2.0 * kCells);
    for (int cell = 0; cell < kCells; ++cell) {
      temperature += flow * half;
      flow += temperature * frequency * capacity;
      temperature += flow * half;
    }
  }
  return 1.0 / temperature;
}

}  // namespace

// EN ISO 13786:2017, 7.2 writes the elements out in sines, from memory; they are the hyperbolic functions of (1 + j) ξ.
// Round-off only.
TEST_CASE("the elements of a layer are those written out in the standard") {
  const double delta = penetration_depth_m(kConcrete);
  const double xi = kConcrete.thickness_m / delta;
  const double conductivity = kConcrete.thickness_m / kConcrete.resistance_m2k_per_w;
  const double sh = std::sinh(xi), ch = std::cosh(xi), s = std::sin(xi), c = std::cos(xi);
  const HeatTransferMatrix z = layer_matrix(kConcrete, panel_dossier::units::kSecondPerDay);
  const auto same = [](Complex a, Complex b) { return std::abs(a - b) <= 1e-12 * std::abs(b); };
  CHECK(same(z.z11, {ch * c, sh * s}));
  CHECK(same(z.z22, z.z11));
  CHECK(same(z.z12, -delta / (2.0 * conductivity) * Complex(sh * c + ch * s, ch * s - sh * c)));
  CHECK(same(z.z21, -conductivity / delta * Complex(sh * c - ch * s, sh * c + ch * s)));
}

// The determinant of a heat transfer matrix is 1 (H. S. Carslaw, J. C. Jaeger, Conduction of Heat in Solids, 1959, 3.7,
// from memory). Round-off grows with |Z11|², about 10 here.
TEST_CASE("the determinant of any component is one") {
  const auto z = component_matrix({kInnerSurface, kConcrete, kInsulation, kConcrete, kOuterSurface},
                                  panel_dossier::units::kSecondPerDay);
  CHECK(std::abs(z.z11 * z.z22 - z.z12 * z.z21 - 1.0) < 1e-9);
}

// A chain of 4000 cells a layer errs by the square of the cell: (0.1 · 1/4000)² is below 1e-7.
TEST_CASE("the periodic transmittance is that of a finely divided chain of resistances and capacities") {
  const std::vector<std::vector<PeriodicLayer>> components{{kInnerSurface, kConcrete, kOuterSurface},
                                                           {kInnerSurface, kConcrete, kInsulation, kOuterSurface},
                                                           {kInnerSurface, kInsulation, kOuterSurface}};
  for (const auto& layers : components) {
    const Complex expected = chained_transmittance(layers);
    const DynamicCharacteristics found = dynamic_characteristics(layers, panel_dossier::units::kSecondPerDay);
    CHECK(std::abs(found.periodic_transmittance - expected) < 1e-6 * std::abs(expected));
    CHECK(found.time_shift_s < 0.0);
    CHECK(found.decrement_factor < 1.0);
  }
}

// Limit: without capacity nothing is damped or delayed.
TEST_CASE("a component of resistances alone lets the swing pass undamped and at once") {
  const auto found = dynamic_characteristics({kInnerSurface, {2.0, 0.1, 0.0, 0.0}, kOuterSurface},
                                             panel_dossier::units::kSecondPerDay);
  CHECK(found.decrement_factor == Approx(1.0));
  CHECK(found.time_shift_s == Approx(0.0).margin(1e-9));
  CHECK(found.internal_areal_capacity == Approx(0.0).margin(1e-9));
}

// Limit: as the period grows, the swing becomes the steady state.
TEST_CASE("a very long period gives the steady transmittance") {
  const auto found = dynamic_characteristics({kInnerSurface, kConcrete, kInsulation, kOuterSurface},
                                             1e5 * panel_dossier::units::kSecondPerDay);
  CHECK(std::abs(found.periodic_transmittance) == Approx(found.steady_transmittance).epsilon(1e-6));
}

// Semi-infinite solid (Carslaw and Jaeger, 1959, 2.6, from memory): the flow into its surface is √(2π λρc / T) times
// the swing of that surface, an eighth of a period ahead. Ten penetration depths are infinite to e^-20.
TEST_CASE("a very thick layer takes in heat as the semi-infinite solid does") {
  PeriodicLayer thick = kConcrete;
  const double depths = 10.0 * penetration_depth_m(kConcrete) / kConcrete.thickness_m;
  thick.thickness_m *= depths;
  thick.resistance_m2k_per_w *= depths;
  const HeatTransferMatrix z = layer_matrix(thick, panel_dossier::units::kSecondPerDay);
  const Complex admittance = -z.z11 / z.z12;
  CHECK(std::abs(admittance) ==
        Approx(std::sqrt(2.0 * std::numbers::pi * 1.8 * 2400.0 * 1000.0 / panel_dossier::units::kSecondPerDay))
            .epsilon(1e-7));
  CHECK(std::arg(admittance) == Approx(std::numbers::pi / 4.0).epsilon(1e-7));
}

// Thin well-insulated layer inside: all of its heat takes part, κ_1 = ρ c d. EN ISO 13786:2017, annex on simplified
// calculation, from memory. It holds to the order of (ωRC)/2 with R_si · C: here 1.5e-2 at 5 mm of concrete.
TEST_CASE("a thin inner layer before insulation stores its whole heat capacity") {
  const PeriodicLayer thin{0.005 / 1.8, 0.005, 2400.0, 1000.0};
  const auto found = dynamic_characteristics({thin, {100.0, 0.0, 0.0, 0.0}}, panel_dossier::units::kSecondPerDay);
  CHECK(found.internal_areal_capacity == Approx(0.005 * 2400.0 * 1000.0).epsilon(0.015));
}
