#include "plugins/structural/combinations.h"

#include <catch2/catch.hpp>

using namespace panel_dossier::structural;

namespace {

CombinationFactors factors() {
  return {1.35, 1.0, 1.5, 0.6, 0.7, "short", "medium"};
}

}  // namespace

TEST_CASE("Without a variable load there are permanent and wind combinations only") {
  const auto all = combinations({1000.0, 0.0, 500.0}, factors());
  REQUIRE(all.size() == 3);
  CHECK(all[0].duration == "permanent");
  CHECK(all[0].line_load_n_per_m == 0.0);
  CHECK(all[1].axial_n == Approx(1000.0));
  CHECK(all[2].axial_n == Approx(1350.0));
  CHECK(all[2].line_load_n_per_m == Approx(750.0));
  CHECK(all[2].duration == "short");
}

TEST_CASE("Leading wind takes the accompanying variable load by its combination factor") {
  const auto all = combinations({1000.0, 2000.0, 500.0}, factors());
  REQUIRE(all.size() == 5);
  CHECK(all[2].name == "leading wind");
  CHECK(all[2].axial_n == Approx(1.35 * 1000.0 + 1.5 * 0.7 * 2000.0));
  CHECK(all[2].line_load_n_per_m == Approx(1.5 * 500.0));
}

TEST_CASE("Leading imposed load takes wind by its combination factor and the shorter duration") {
  const auto all = combinations({1000.0, 2000.0, 500.0}, factors());
  CHECK(all[3].name == "imposed alone");
  CHECK(all[3].duration == "medium");
  CHECK(all[4].name == "leading imposed");
  CHECK(all[4].axial_n == Approx(1.35 * 1000.0 + 1.5 * 2000.0));
  CHECK(all[4].line_load_n_per_m == Approx(1.5 * 0.6 * 500.0));
  CHECK(all[4].duration == "short");
}
