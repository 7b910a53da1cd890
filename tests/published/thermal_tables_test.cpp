// The shipped tables and the rules that use them, against the standards they are taken from.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance/plain_layers.h"

using namespace panel_dossier;
using namespace panel_dossier::thermal;

namespace {

const Tables& tables() {
  static const Tables shipped(PANEL_DOSSIER_SOURCE_DIR "/plugins/thermal/data");
  return shipped;
}

double air(double thickness_m, HeatFlow direction) {
  return air_layer_resistance(tables().air_layers, thickness_m, direction).value().value;
}

}  // namespace

// EN ISO 6946:2017 table 8 (table 2 of the 2007 edition), unventilated air layers. From memory. Values are read as they
// stand, so they are equal to the last bit.
TEST_CASE("unventilated air layers have the resistances of the standard") {
  CHECK(air(0.0, HeatFlow::horizontal) == 0.00);
  CHECK(air(0.005, HeatFlow::horizontal) == 0.11);
  CHECK(air(0.015, HeatFlow::upwards) == 0.16);
  CHECK(air(0.025, HeatFlow::horizontal) == 0.18);
  CHECK(air(0.050, HeatFlow::downwards) == 0.21);
  CHECK(air(0.300, HeatFlow::downwards) == 0.23);
}

// EN ISO 6946:2017, annex D, from memory: R = 1 / (h_a + E · h_r0) with E = 1 / (2/0.9 − 1), h_r0 = 4 · 5.67e-8 ·
// 283.15³ and h_a the greater of 0.025/d and 1.25 (horizontal), 1.95 (upwards), 0.12 · d^−0.44 (downwards). The table
// is rounded to 0.01 m²·K/W, so each value may lie half of that away.
TEST_CASE("the table of air layers follows from the standard's coefficients of convection and radiation") {
  const double radiation = 4.0 * 5.67e-8 * std::pow(283.15, 3.0) / (2.0 / 0.9 - 1.0);
  const auto by_formula = [&](double d, double convection) {
    return 1.0 / (std::max(0.025 / d, convection) + radiation);
  };
  for (const double d : {0.005, 0.007, 0.010, 0.015, 0.025, 0.050, 0.100, 0.300}) {
    INFO(d);
    CHECK(air(d, HeatFlow::horizontal) == Approx(by_formula(d, 1.25)).margin(0.005));
    CHECK(air(d, HeatFlow::upwards) == Approx(by_formula(d, 1.95)).margin(0.005));
    CHECK(air(d, HeatFlow::downwards) == Approx(by_formula(d, 0.12 * std::pow(d, -0.44))).margin(0.005));
  }
}

// EN ISO 6946:2017, annex C, from memory: R_s = 1 / (h_c + ε · h_r0) with ε = 0.9, h_r0 = 5.7 at 20 °C inside and 5.1
// at 10 °C outside; h_c inside 5.0 upwards, 2.5 horizontal, 0.7 downwards, outside 4 + 4v at v = 4 m/s. The table is
// rounded to 0.01 m²·K/W.
TEST_CASE("surface resistances follow from the standard's coefficients of convection and radiation") {
  const auto resistance = [](const char* row) {
    return tables().surface_resistances.number(row, "resistance_m2k_per_w").value().value;
  };
  CHECK(resistance("inside_upwards") == Approx(1.0 / (5.0 + 0.9 * 5.7)).margin(0.005));
  CHECK(resistance("inside_horizontal") == Approx(1.0 / (2.5 + 0.9 * 5.7)).margin(0.005));
  CHECK(resistance("inside_downwards") == Approx(1.0 / (0.7 + 0.9 * 5.7)).margin(0.005));
  CHECK(resistance("outside") == Approx(1.0 / (4.0 + 4.0 * 4.0 + 0.9 * 5.1)).margin(0.005));
}

// EN ISO 6946:2017 table 7. From memory.
TEST_CASE("surface resistances are the conventional ones") {
  const auto resistance = [](const char* row) {
    return tables().surface_resistances.number(row, "resistance_m2k_per_w").value().value;
  };
  CHECK(resistance("inside_upwards") == 0.10);
  CHECK(resistance("inside_horizontal") == 0.13);
  CHECK(resistance("inside_downwards") == 0.17);
  CHECK(resistance("outside") == 0.04);
}

// BRE Information Paper IP 1/06, 2006, from memory: 0.75 for dwellings and schools, 0.50 for offices and shops, 0.30
// for storage, 0.80 for sports halls and kitchens, 0.90 for pools and laundries. Read as they stand.
TEST_CASE("the least temperature factors are those of the information paper") {
  const auto factor = [](const char* row) {
    return tables().surface_factor_limits.number(row, "factor_min").value().value;
  };
  CHECK(factor("England dwellings") == 0.75);
  CHECK(factor("Wales school") == 0.75);
  CHECK(factor("Scotland office") == 0.50);
  CHECK(factor("Northern Ireland shop") == 0.50);
  CHECK(factor("England storage") == 0.30);
  CHECK(factor("England sports hall") == 0.80);
  CHECK(factor("Ireland swimming pool") == 0.90);
}
