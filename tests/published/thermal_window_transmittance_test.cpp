// Windows against the table of the standard and by hand.
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

// EN ISO 10077-1:2017, 6.4.1, worked by hand for the size that EN 14351-1 tests, 1.23 m × 1.48 m, with 0.11 m of frame:
// glazing 1.01 × 1.26 = 1.2726 m², frame 0.5478 m², edge 4.54 m; (1.2726 · 1.1 + 0.5478 · 1.4 + 4.54 · 0.05) / 1.8204
// = 2.39378 / 1.8204 = 1.31497. Tolerance: the hand calculation's last digit.
TEST_CASE("a window of the standard's test size gives the U-value worked out by hand") {
  WindowParts parts = single_pane_window(1.23, 1.48, 0.11);
  CHECK(parts.glass_area_m2 == Approx(1.2726));
  CHECK(parts.frame_area_m2 == Approx(0.5478));
  CHECK(parts.edge_length_m == Approx(4.54));
  parts.glass_u_w_per_m2k = 1.1;
  parts.frame_u_w_per_m2k = 1.4;
  parts.edge_psi_w_per_mk = 0.05;
  CHECK(window_transmittance(parts) == Approx(1.31497).margin(0.00001));
}
