// Resistances of air layers between the rows of the table, and the temperatures through a build-up.
#include <catch2/catch.hpp>
#include <vector>

#include "plugins/thermal/moisture/surface.h"
#include "plugins/thermal/transmittance/build_up.h"
#include "plugins/thermal/transmittance/plain_layers.h"
#include "tests/thermal/tables_support.h"

using namespace panel_dossier::thermal;
using panel_dossier::testing::thermal_tables;

namespace {

double resting_air(double thickness_m, HeatFlow direction) {
  return air_layer_resistance(thermal_tables().air_layers, thickness_m, direction).value().value;
}

}  // namespace

// EN ISO 6946:2017, note to table 8: intermediate values by linear interpolation. From memory.
TEST_CASE("between the rows air layers are interpolated linearly") {
  CHECK(resting_air(0.020, HeatFlow::horizontal) == Approx(0.175));
  CHECK(resting_air(0.0375, HeatFlow::downwards) == Approx(0.20));
}

// EN ISO 6946:2017, 6.9.1: the table ends at 0.3 m. From memory.
TEST_CASE("air layers thicker than 300 mm have no value") {
  CHECK_FALSE(air_layer_resistance(thermal_tables().air_layers, 0.301, HeatFlow::horizontal));
  CHECK_FALSE(air_layer_resistance(thermal_tables().air_layers, -0.001, HeatFlow::horizontal));
}

// EN ISO 13788:2012, definition of the temperature factor: f = (θ_si − θ_e) / (θ_i − θ_e). The factor from U must agree
// with the temperatures of the profile, worked out apart. Exact but for rounding.
TEST_CASE("the temperature factor is the share of the temperature difference that the surface keeps") {
  const std::vector<double> resistances{0.05, 4.0, 0.1};
  const auto temperatures = interface_temperatures_c(resistances, 0.25, 0.04, 20.0, -5.0);
  const double u = 1.0 / (0.25 + 4.15 + 0.04);
  CHECK(surface_temperature_factor(u, 0.25) == Approx((temperatures[1] + 5.0) / 25.0));
}

// Closed form: temperatures fall in the ratio of resistances and end at the outside air.
TEST_CASE("the temperature profile falls in the ratio of the resistances") {
  const auto temperatures = interface_temperatures_c({1.0, 2.0}, 0.5, 0.5, 20.0, 0.0);
  const std::vector<double> expected{20.0, 17.5, 12.5, 2.5, 0.0};
  REQUIRE(temperatures.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) CHECK(temperatures[i] == Approx(expected[i]).margin(1e-12));
}
