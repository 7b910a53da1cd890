// Windows against the table of the standard.
#include <catch2/catch.hpp>

#include "plugins/thermal/windows/window_check.h"

using namespace panel_dossier::thermal;

// EN ISO 10077-1:2017, annex H, vertical windows with 30 % of frame, row of single glazing (U_g 5.7, no edge effect):
// printed U_w 4.3 for U_f 1.0, 4.5 for 1.8, 4.8 for 2.6 and 6.1 for 7.0 W/(m²·K). From memory. Tolerance: half of the
// last printed digit.
TEST_CASE("single glazing with 30 per cent of frame has the U-values of the standard's table") {
  const auto u = [](double frame_u) { return window_transmittance({0.7, 5.7, 0.3, frame_u, 0.0, 0.0}); };
  CHECK(u(1.0) == Approx(4.3).margin(0.05));
  CHECK(u(1.8) == Approx(4.5).margin(0.05));
  CHECK(u(2.6) == Approx(4.8).margin(0.05));
  CHECK(u(7.0) == Approx(6.1).margin(0.05));
}
