// Expressions of EN 1991-1-4:2005+A1:2010 and of its UK annex written once more by hand (from memory).
#include <catch2/catch.hpp>
#include <cmath>

#include "plugins/structural/wind/loads.h"
#include "plugins/structural/wind/site.h"
#include "tests/structural/structural_tables.h"

using namespace panel_dossier::structural;
using panel_dossier::testing::structural_tables;

TEST_CASE("Below the minimum height the pressure stays that of the minimum height") {
  // EN 1991-1-4:2005 (4.4), (4.7): z < zmin takes zmin; exact.
  CHECK(peak_velocity_pressure(26.0, 1.0, 10.0, 3.0).peak_pressure_pa ==
        peak_velocity_pressure(26.0, 1.0, 10.0, 10.0).peak_pressure_pa);
}

TEST_CASE("Basic velocity pressure at 26 m/s is 0.42 kN/m²") {
  // Handbook value of qb for vb = 26 m/s with ρ = 1.25 kg/m³: 0.4225 kN/m², exact by (4.10).
  CHECK(peak_velocity_pressure(26.0, 0.05, 2.0, 10.0).basic_pressure_pa == Approx(422.5));
}

TEST_CASE("The probability factor is 1 for the 50-year wind that (4.2) is made for") {
  CHECK(probability_factor(0.02) == Approx(1.0));
}

TEST_CASE("The altitude factor of the UK annex adds a thousandth a metre up to 10 m above ground") {
  // NA to BS EN 1991-1-4 (NA.2a), (NA.2b), from memory; 100 m above sea level. At 20 m: 1 + 0.1·0.5^0.2 = 1.0871.
  CHECK(altitude_factor(100.0, 5.0) == Approx(1.1));
  CHECK(altitude_factor(100.0, 10.0) == Approx(1.1));
  CHECK(altitude_factor(100.0, 20.0) == Approx(1.0871).epsilon(1e-4));
  CHECK(altitude_factor(0.0, 20.0) == 1.0);
}

TEST_CASE("The orography factor follows the three ranges of EN 1991-1-4 A.3") {
  // (A.1) to (A.3): 1 below a slope of 0.05; 1 + 2·s·Φ up to 0.3; 1 + 0.6·s above; continuous at 0.3.
  CHECK(orography_factor(0.04, 1.0) == 1.0);
  CHECK(orography_factor(0.2, 0.5) == Approx(1.2));
  CHECK(orography_factor(0.5, 0.5) == Approx(1.3));
  CHECK(orography_factor(0.3 - 1e-9, 0.7) == Approx(orography_factor(0.3, 0.7)));
}

TEST_CASE("At 10 m in terrain category II the mean velocity is the basic one and the turbulence 0.189") {
  // By definition of vb,0 (4.2(1)): cr(10 m) = 0.19·ln(200) = 1.0067; Iv = 1/ln(200) = 0.1887; (4.4), (4.7), in closed
  // form.
  const auto wind = peak_velocity_pressure(25.0, 0.05, 2.0, 10.0);
  CHECK(wind.roughness_factor == Approx(0.19 * std::log(200.0)));
  CHECK(wind.turbulence_intensity == Approx(0.1887).epsilon(1e-3));
  CHECK(wind.basic_pressure_pa == Approx(390.625));
  // qp = (1 + 7·0.18874)·0.625·25.167² = 918.9 Pa.
  CHECK(wind.peak_pressure_pa == Approx(918.9).epsilon(1e-3));
}

TEST_CASE("Between 1 and 10 m² coefficients follow the expression of EN 1991-1-4 figure 7.2") {
  // cpe = cpe,1 - (cpe,1 - cpe,10)·log10 A; at 5 m², log10 5 = 0.69897: zone B -1.1 + 0.3·0.69897 = -0.89031.
  CHECK(external_pressure_coefficient(structural_tables().wall_pressure_coefficients, WindZone::b, 5.0, 1.0) ==
        Approx(-0.89031).epsilon(1e-5));
}

TEST_CASE("Zones A and B end at e/5 and e of EN 1991-1-4 figure 7.5") {
  // The lesser of b and 2·h; by hand for a hall b = 30 m, d = 60 m, h = 9 m: e = 18 m, e/5 = 3.6 m.
  CHECK(zone_length_m(30.0, 9.0) == Approx(18.0));
  CHECK(zone_length_m(15.0, 9.0) == Approx(15.0));
  const auto zones = side_wall_zones(18.0, 60.0);
  CHECK(zones.at(0).stretch.to_m == Approx(3.6));
  CHECK(zones.at(1).stretch.length_m() == Approx(0.8 * 18.0));
  CHECK(zones.at(2).stretch.length_m() == Approx(60.0 - 18.0));
}
