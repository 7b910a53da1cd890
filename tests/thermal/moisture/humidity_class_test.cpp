// The classes of the humidity of rooms between and beyond the temperatures of their rows.
#include <catch2/catch.hpp>
#include <string>

#include "plugins/thermal/moisture/climate.h"
#include "tests/thermal/tables_support.h"

using namespace panel_dossier;
using namespace panel_dossier::thermal;

namespace {

HumidityClass humidity_class(const std::string& key) {
  FindingBuilder builder(CheckDeclaration{}, "");
  return read_humidity_class(testing::thermal_tables().humidity_classes, key, builder).value();
}

}  // namespace

// EN ISO 13788:2012, annex A, figure A.1, from memory: the boundaries lie at 270, 540, 810 and 1080 Pa up to 0 °C and
// fall on straight lines to 0 Pa at 20 °C. By hand: half of it at 10 °C.
TEST_CASE("the vapour pressure excess of rooms falls on a straight line from 0 to 20 degrees outside") {
  const double upper[] = {270.0, 540.0, 810.0, 1080.0};
  for (int number = 1; number <= 4; ++number) {
    const HumidityClass room = humidity_class("class " + std::to_string(number));
    const double boundary = upper[number - 1];
    REQUIRE(room.is_vapour_excess);
    CHECK(room.at(-15.0) == Approx(boundary));
    CHECK(room.at(0.0) == Approx(boundary));
    CHECK(room.at(10.0) == Approx(boundary / 2.0));
    CHECK(room.at(25.0) == Approx(0.0).margin(1e-12));
  }
}

// EN 15026:2007, annex C, figure C.2, from memory: 30 % up to −10 °C and 60 % from 20 °C with normal occupancy, 10 %
// more with high occupancy, straight between. By hand: 45 % and 55 % at 5 °C.
TEST_CASE("the relative humidity of rooms rises on a straight line from minus 10 to 20 degrees outside") {
  const HumidityClass normal = humidity_class("normal occupancy");
  const HumidityClass high = humidity_class("high occupancy");
  REQUIRE_FALSE(normal.is_vapour_excess);
  CHECK(normal.at(-20.0) == Approx(0.30));
  CHECK(normal.at(5.0) == Approx(0.45));
  CHECK(normal.at(30.0) == Approx(0.60));
  CHECK(high.at(-10.0) == Approx(0.40));
  CHECK(high.at(5.0) == Approx(0.55));
  CHECK(high.at(20.0) == Approx(0.70));
}
