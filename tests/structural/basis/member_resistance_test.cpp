#include "plugins/structural/basis/member_resistance.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "core/api/support/data_table.h"
#include "core/api/testing/temporary_folder.h"
#include "plugins/structural/basis/timber.h"

using namespace panel_dossier::structural;
using panel_dossier::DataTable;
using panel_dossier::testing::TemporaryFolder;

namespace {

/// C24 under wind, service class 2.
Resistance c24() {
  Resistance resistance;
  resistance.bending_pa = 24e6;
  resistance.compression_parallel_pa = 21e6;
  resistance.shear_pa = 4e6;
  resistance.modulus_fifth_pa = 7.4e9;
  resistance.modification_factor = 0.9;
  resistance.partial_factor = 1.3;
  resistance.crack_factor = 0.67;
  return resistance;
}

constexpr Section kStud{0.045, 0.145};

}  // namespace

TEST_CASE("Bending stress is moment over section modulus, strength kmod·fm,k/γM") {
  const auto result = verify_bending(kStud, c24(), {0.0, 1000.0, 0.0});
  CHECK(result.stress_pa == Approx(1000.0 / 157687.5e-9));
  CHECK(result.strength_pa == Approx(0.9 * 24e6 / 1.3));
}

TEST_CASE("Shear stress acts on the width reduced by the crack factor") {
  const auto result = verify_shear(kStud, c24(), {0.0, 0.0, 1000.0});
  CHECK(result.stress_pa == Approx(1.5 * 1000.0 / (0.67 * 0.045 * 0.145)));
}

TEST_CASE("Sheathing takes weak axis buckling out of the stability check") {
  const Forces forces{10e3, 500.0, 0.0};
  const auto free = verify_stability(kStud, c24(), {2.9, 2.9, false, false}, forces);
  const auto held = verify_stability(kStud, c24(), {2.9, 2.9, true, true}, forces);
  CHECK(free.slenderness_z == Approx(2.9 / (0.045 / std::sqrt(12.0))));
  CHECK(held.weak_axis_sum == 0.0);
  CHECK(held.lateral_sum == 0.0);
  CHECK(free.utilisation > 2.0 * held.utilisation);
}

TEST_CASE("A stocky member is judged by its section alone") {
  const auto result = verify_stability(kStud, c24(), {0.5, 0.5, true, true}, {10e3, 500.0, 0.0});
  CHECK(result.relative_slenderness_y < 0.3);
  CHECK(result.buckling_factor_y == 1.0);
  CHECK(result.strong_axis_sum == 0.0);
  CHECK(result.utilisation == result.section_sum);
}

TEST_CASE("Lateral buckling factor is continuous at its two kinks") {
  // (6.34) itself jumps by 0.0025 at 0.75 and by 0.0002 at 1.4, from rounded constants.
  for (const double kink : {0.75, 1.4}) {
    CHECK(lateral_buckling_factor(kink - 1e-9) == Approx(lateral_buckling_factor(kink + 1e-9)).margin(0.003));
  }
}

TEST_CASE("Depth factor lies between 1 and its cap") {
  CHECK(depth_factor(TimberFamily::solid, 0.150) == 1.0);
  CHECK(depth_factor(TimberFamily::solid, 0.300) == 1.0);
  CHECK(depth_factor(TimberFamily::solid, 0.020) == 1.3);
  CHECK(depth_factor(TimberFamily::glulam, 0.600) == 1.0);
  CHECK(depth_factor(TimberFamily::glulam, 0.100) == 1.1);
}

TEST_CASE("Between its limits kh is a root of the depth over the reference depth, EN 1995-1-1 (3.1) and (3.2)") {
  CHECK(depth_factor(TimberFamily::solid, 0.075) == Approx(1.148698));   // 2^0.2
  CHECK(depth_factor(TimberFamily::solid, 0.100) == Approx(1.084472));   // 1.5^0.2
  CHECK(depth_factor(TimberFamily::glulam, 0.240) == Approx(1.095958));  // 2.5^0.1
  CHECK(depth_factor(TimberFamily::glulam, 0.300) == Approx(1.071773));  // 2^0.1
  // (6.29) and (6.63): βc 0.2 and 0.1, kn 5 and 6.5.
  CHECK(straightness_factor(TimberFamily::solid) == 0.2);
  CHECK(straightness_factor(TimberFamily::glulam) == 0.1);
  CHECK(notch_factor(TimberFamily::solid) == 5.0);
  CHECK(notch_factor(TimberFamily::glulam) == 6.5);
}

TEST_CASE("A strength class without one of its ten values, or with one that is not above 0, is none") {
  const TemporaryFolder folder;
  const std::string head =
      "key,family,bending,tension_parallel,compression_parallel,compression_perpendicular,shear,modulus_mean,"
      "modulus_fifth,shear_modulus_mean,density_characteristic,density_mean,source\n";
  const std::vector<std::string> values{"24", "14.5", "21", "2.5", "4", "11000", "7400", "690", "350", "420"};
  const auto class_with = [&](std::size_t changed, const std::string& cell) {
    std::string row = "C24,solid";
    for (std::size_t i = 0; i < values.size(); ++i) row += "," + (i == changed ? cell : values[i]);
    return timber_class(DataTable(folder.write("classes.csv", head + row + ",a source\n")), "C 24");
  };
  REQUIRE(class_with(values.size(), "").has_value());
  CHECK(class_with(values.size(), "")->density_mean_kg_per_m3.value == 420.0);
  for (std::size_t i = 0; i < values.size(); ++i) {
    for (const char* cell : {"", "0", "-1", "many"}) {
      INFO(i << " '" << cell << "'");
      CHECK_FALSE(class_with(i, cell).has_value());
    }
  }
}
