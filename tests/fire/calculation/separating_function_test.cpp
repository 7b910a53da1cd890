// Position coefficients of EN 1995-1-2:2004 annex E, its expressions worked out by hand.
#include "plugins/fire/calculation/separating_function.h"

#include <catch2/catch.hpp>

using namespace panel_dossier;

TEST_CASE("A board on the fire's side counts more the thicker it is, and in full from 23 mm on") {
  CHECK(fire::exposed_position_factor(12.0) == Approx(0.78));
  CHECK(fire::exposed_position_factor(22.0) == Approx(0.98));
  CHECK(fire::exposed_position_factor(25.0) == 1.0);
}

TEST_CASE("A board behind glass wool counts more the thicker it is, and a very thin one not at all") {
  CHECK(fire::unexposed_position_factor_behind_glass_wool(12.5) == Approx(0.705));
  CHECK(fire::unexposed_position_factor_behind_glass_wool(20.0) == Approx(1.23));
  CHECK(fire::unexposed_position_factor_behind_glass_wool(2.0) == 0.0);
}
