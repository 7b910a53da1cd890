#include <catch2/catch.hpp>

#include "plugins/structural/wind/loads.h"
#include "tests/structural/structural_tables.h"

using namespace panel_dossier::structural;
using panel_dossier::testing::structural_tables;

TEST_CASE("A wall longer than e has zones A, B and C") {
  const auto zones = side_wall_zones(10.0, 24.0);
  REQUIRE(zones.size() == 3);
  CHECK(zones[0].stretch.to_m == 2.0);
  CHECK(zones[1].stretch.to_m == 10.0);
  CHECK(zones[2].zone == WindZone::c);
  CHECK(zones[2].stretch.to_m == 24.0);
}

TEST_CASE("A wall shorter than e has zones A and B, one shorter than e/5 zone A alone") {
  const auto shorter = side_wall_zones(20.0, 12.0);
  REQUIRE(shorter.size() == 2);
  CHECK(shorter[1].zone == WindZone::b);
  CHECK(shorter[1].stretch.to_m == 12.0);
  const auto shortest = side_wall_zones(20.0, 4.0);
  REQUIRE(shortest.size() == 1);
  CHECK(shortest[0].stretch.to_m == 4.0);
}

TEST_CASE("A windward wall is one strip up to its width and two up to twice its width") {
  CHECK(windward_strips(10.0, 10.0).size() == 1);
  const auto two = windward_strips(15.0, 10.0);
  REQUIRE(two.size() == 2);
  CHECK(two[0].to_m == 10.0);
  CHECK(two[1].to_m == 15.0);
}

TEST_CASE("A windward wall of more than twice its width has strips between the lowest and the highest") {
  const auto strips = windward_strips(45.0, 10.0);
  REQUIRE(strips.size() == 5);
  CHECK(strips.front().from_m == 0.0);
  CHECK(strips.front().to_m == 10.0);
  CHECK(strips.back().from_m == 35.0);
  for (std::size_t i = 1; i < strips.size(); ++i) {
    CHECK(strips[i].from_m == Approx(strips[i - 1].to_m));
    CHECK(strips[i].length_m() <= 10.0);
  }
}

TEST_CASE("Coefficients fall with the logarithm of the loaded area between 1 and 10 m²") {
  const auto& table = structural_tables().wall_pressure_coefficients;
  const auto at = [&](double area_m2) { return external_pressure_coefficient(table, WindZone::a, area_m2, 1.0); };
  CHECK(at(0.2) == Approx(-1.4));
  CHECK(at(1.0) == Approx(-1.4));
  CHECK(at(3.16227766) == Approx(-1.3));  // half way, for log10 is 0.5
  CHECK(at(10.0) == Approx(-1.2));
  CHECK(at(50.0) == Approx(-1.2));
}

TEST_CASE("Coefficients of windward and leeward walls go linearly with height over depth") {
  const auto& table = structural_tables().wall_pressure_coefficients;
  const auto at = [&](WindZone zone, double slenderness) {
    return external_pressure_coefficient(table, zone, 10.0, slenderness);
  };
  CHECK(at(WindZone::d, 0.1) == Approx(0.7));
  CHECK(at(WindZone::d, 0.625) == Approx(0.75));
  CHECK(at(WindZone::d, 3.0) == Approx(0.8));
  CHECK(at(WindZone::e, 0.625) == Approx(-0.4));
  CHECK(at(WindZone::e, 3.0) == Approx(-0.6));
}
