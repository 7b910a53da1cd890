// Waste of materials on the way into the finished panel.
#include <catch2/catch.hpp>

#include "plugins/carbon/account/modules.h"

using namespace panel_dossier::carbon;

// The Institution of Structural Engineers, How to calculate embodied carbon, 2nd edition 2022, table of waste rates:
// waste rate and waste factor WF = 1 / (1 − WR) − 1 of plasterboard 22.5 % and 0.290, in-situ concrete 5 % and 0.053,
// timber frames 1 % and 0.010. From memory. 0.0005 is the rounding of the printed thousandth.
TEST_CASE("waste factors are those of the structural engineers' guide") {
  CHECK(waste_factor(0.225) == Approx(0.290).margin(0.0005));
  CHECK(waste_factor(0.05) == Approx(0.053).margin(0.0005));
  CHECK(waste_factor(0.01) == Approx(0.010).margin(0.0005));
  CHECK(waste_factor(0.0) == 0.0);
}
