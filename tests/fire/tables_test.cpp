#include "plugins/fire/tables.h"

#include <catch2/catch.hpp>

using namespace panel_dossier;

TEST_CASE("Points are joined by straight lines: none before the first, the last value beyond the last") {
  const fire::Points points{{10.0, 1.0}, {20.0, 2.0}, {40.0, 3.0}};
  CHECK_FALSE(fire::interpolated(points, 9.9));
  CHECK(fire::interpolated(points, 10.0) == 1.0);
  CHECK(*fire::interpolated(points, 15.0) == Approx(1.5));
  CHECK(*fire::interpolated(points, 30.0) == Approx(2.5));
  CHECK(fire::interpolated(points, 50.0) == 3.0);
  CHECK_FALSE(fire::interpolated({}, 10.0));
}
