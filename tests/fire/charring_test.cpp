#include "plugins/fire/charring.h"

#include <catch2/catch.hpp>

using namespace panel_dossier::fire;

TEST_CASE("An unprotected member chars at the plain rate") {
  CHECK(char_depth_mm(60.0, 0.0, 0.8) == Approx(48.0));
}

TEST_CASE("A protected member does not char before its board fails, then twice as fast") {
  CHECK(char_depth_mm(28.0, 28.0, 0.8) == 0.0);
  CHECK(char_depth_mm(33.0, 28.0, 0.8) == Approx(5.0 * 1.6));
}

TEST_CASE("Charring slows down once 25 mm protect the member") {
  // 25 mm at 1.6 mm/min take 15.625 min.
  const double ta_min = 28.0 + 15.625;
  CHECK(char_depth_mm(ta_min, 28.0, 0.8) == Approx(25.0));
  CHECK(char_depth_mm(60.0, 28.0, 0.8) == Approx(25.0 + 0.8 * (60.0 - ta_min)));
}

TEST_CASE("With a board that fails early the depth catches up with the unprotected one") {
  // t_a = 2·t_f when that comes first; from there both curves are the same.
  CHECK(char_depth_mm(20.0, 10.0, 0.8) == Approx(char_depth_mm(20.0, 0.0, 0.8)));
  CHECK(char_depth_mm(60.0, 10.0, 0.8) == Approx(char_depth_mm(60.0, 0.0, 0.8)));
}

TEST_CASE("The zero-strength layer grows over 20 minutes, or until a later start of charring") {
  CHECK(zero_strength_factor(10.0, 0.0) == Approx(0.5));
  CHECK(zero_strength_factor(60.0, 0.0) == 1.0);
  CHECK(zero_strength_factor(20.0, 40.0) == Approx(0.5));
  CHECK(zero_strength_factor(40.0, 40.0) == 1.0);
}

TEST_CASE("A thin gypsum board gives no negative start of charring") {
  CHECK(gypsum_charring_start_min(4.0) == 0.0);
}
