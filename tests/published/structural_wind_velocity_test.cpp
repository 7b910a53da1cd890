// EN 1991-1-4:2005+A1:2010 4.2 to 4.5 and annex A.3: factors of the basic and mean wind velocity (from memory).
#include <catch2/catch.hpp>
#include <cmath>

#include "plugins/structural/wind/site.h"

using namespace panel_dossier::structural;

TEST_CASE("The probability factor is 1 for the 50-year wind that (4.2) is made for") {
  CHECK(probability_factor(0.02) == Approx(1.0));
}

TEST_CASE("The probability factor of other mean return periods is that of handbooks") {
  // (4.2) with K = 0.2 and n = 0.5, as handbooks print it for ten and a hundred years; the tolerance is half of the
  // last printed digit.
  CHECK(probability_factor(0.1) == Approx(0.90).margin(0.005));
  CHECK(probability_factor(0.01) == Approx(1.04).margin(0.005));
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
