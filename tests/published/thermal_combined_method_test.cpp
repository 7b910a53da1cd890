// Worked example of the combined method from a published guide, and limits that hold for any correct solution.
#include <catch2/catch.hpp>

#include "plugins/thermal/transmittance/build_up.h"

using namespace panel_dossier::thermal;

// Approved Document L1 (England and Wales), 2002 edition, appendix B, example 2: timber-framed wall of brick 102 mm
// (R 0.132), slightly ventilated cavity (0.090), plywood 10 mm (0.077), mineral wool 140 mm of 0.038 W/(m·K) between
// timber of 0.13 W/(m·K) at a share of 15 %, plasterboard 25 mm (0.100); R_si 0.13, R_se 0.04. Printed there: upper
// limit 3.437, lower limit 3.271, total 3.354 m²·K/W, U before corrections 0.298 W/(m²·K). From memory. Tolerance: one
// unit of the last printed digit, for the example works with resistances already rounded to 0.001.
TEST_CASE("the published timber-framed wall gives the published limits and U-value") {
  const double wool = 0.140 / 0.038;
  const double timber = 0.140 / 0.13;
  const auto result =
      combine({{0.85, {0.132, 0.090, 0.077, wool, 0.100}}, {0.15, {0.132, 0.090, 0.077, timber, 0.100}}}, 0.13, 0.04);
  CHECK(result.upper == Approx(3.437).margin(0.001));
  CHECK(result.lower == Approx(3.271).margin(0.001));
  CHECK(result.total == Approx(3.354).margin(0.001));
  CHECK(result.transmittance() == Approx(0.298).margin(0.001));
}

// EN ISO 6946:2017, 6.7.2.5: e = (R' − R'') / (2 · R_tot), and its own remark that a ratio of the limits of 1.5 means
// an error of at most 20 %. From memory. (1.5 − 1) / (1.5 + 1) = 0.2 exactly, so no tolerance beyond rounding.
TEST_CASE("a ratio of limits of 1.5 is an error of 20 per cent") {
  CombinedResistance result;
  result.upper = 3.0;
  result.lower = 2.0;
  result.total = 2.5;
  CHECK(result.ratio() == Approx(1.5));
  CHECK(result.max_relative_error() == Approx(0.2));
}

// Closed form: a layer of one conductivity is homogeneous whatever its shares, so both limits are R_si + d/λ + R_se.
TEST_CASE("equal conductivities in all sections give the homogeneous wall") {
  const double layer = 0.2 / 0.04;
  const auto result = combine({{0.7, {layer}}, {0.2, {layer}}, {0.1, {layer}}}, 0.13, 0.04);
  CHECK(result.upper == Approx(5.17).epsilon(1e-12));
  CHECK(result.lower == Approx(5.17).epsilon(1e-12));
}
