#include "plugins/fire/calculation/charring.h"

#include <catch2/catch.hpp>

using namespace panel_dossier::fire;

namespace {

/// A member behind a layer that falls off when charring starts, notional rate 0.8 mm/min.
CharringPhases behind(double start_min) {
  return protected_member(start_min, start_min, 0.8, 1.0);
}

}  // namespace

TEST_CASE("An unprotected member chars at the plain rate") {
  CHECK(behind(0.0).depth_mm(60.0) == Approx(48.0));
}

TEST_CASE("A protected member does not char before its board fails, then twice as fast") {
  CHECK(behind(28.0).depth_mm(28.0) == 0.0);
  CHECK(behind(28.0).depth_mm(33.0) == Approx(5.0 * 1.6));
}

TEST_CASE("Charring slows down once 25 mm protect the member") {
  // 25 mm at 1.6 mm/min take 15.625 min.
  const double ta_min = 28.0 + 15.625;
  CHECK(behind(28.0).depth_mm(ta_min) == Approx(25.0));
  CHECK(behind(28.0).depth_mm(60.0) == Approx(25.0 + 0.8 * (60.0 - ta_min)));
}

TEST_CASE("With a board that fails early the depth catches up with the unprotected one") {
  // t_a = 2·t_f when that comes first; from there both curves are the same.
  CHECK(behind(10.0).depth_mm(20.0) == Approx(behind(0.0).depth_mm(20.0)));
  CHECK(behind(10.0).depth_mm(60.0) == Approx(behind(0.0).depth_mm(60.0)));
}

TEST_CASE("A board that stays after charring has started lets the member char slowly until it falls") {
  // Type F, 15 mm: k2 = 1 − 0.018·15 = 0.73; 0.584 mm/min from 28 to 45 min: 9.928 mm; 15.072 mm at 1.6 mm/min: ta =
  // 54.42 min; then 0.8 mm/min.
  const CharringPhases phases = protected_member(28.0, 45.0, 0.8, slow_factor(15.0));
  CHECK(phases.depth_mm(45.0) == Approx(9.928));
  CHECK(phases.plain_from_min == Approx(54.42));
  CHECK(phases.depth_mm(60.0) == Approx(25.0 + 0.8 * 5.58));
}

TEST_CASE("The time of a depth is the inverse of the depth at a time") {
  const CharringPhases phases = protected_member(28.0, 45.0, 0.8, slow_factor(15.0));
  for (const double time_min : {30.0, 44.0, 47.0, 54.0, 60.0, 90.0}) {
    INFO(time_min);
    CHECK(phases.time_min(phases.depth_mm(time_min)) == Approx(time_min));
  }
}

TEST_CASE("A fastener that is too short holds its board no longer than until charring starts") {
  CHECK(pull_out_min(28.0, 24.9, 15.0, 0.6) == 28.0);
  CHECK(pull_out_min(28.0, 31.0, 15.0, 0.6) == Approx(38.0));
}

TEST_CASE("The zero-strength layer grows over 20 minutes, or until a later start of charring") {
  CHECK(zero_strength_factor(0.0, 0.0) == 0.0);
  CHECK(zero_strength_factor(1.0, 0.0) == Approx(0.05));
  CHECK(zero_strength_factor(10.0, 0.0) == Approx(0.5));
  CHECK(zero_strength_factor(60.0, 0.0) == 1.0);
  CHECK(zero_strength_factor(20.0, 40.0) == Approx(0.5));
  CHECK(zero_strength_factor(40.0, 40.0) == 1.0);
}

TEST_CASE("A thin gypsum board gives no negative start of charring") {
  CHECK(gypsum_charring_start_min(4.0) == 0.0);
  CHECK(gypsum_charring_start_min(8.0, true) == 0.0);
}
