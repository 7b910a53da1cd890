// The height of a panel above the last of its supports.
#include <catch2/catch.hpp>

#include "plugins/structural/basis/design_basis.h"

using namespace panel_dossier::structural;

TEST_CASE("What is left above the last whole span projects") {
  CHECK(height_above_last_support_m(12.0, 3.6) == Approx(1.2));
  CHECK(height_above_last_support_m(10.8, 3.6) == 0.0);
  CHECK(height_above_last_support_m(3.0, 3.6) == 0.0);
  CHECK(height_above_last_support_m(9.0, 3.0) == 0.0);
}
