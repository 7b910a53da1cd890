// EN 1995-1-2:2004: charring and protection. Values from memory.
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>

#include "core/api/data_table.h"
#include "plugins/fire/charring.h"

using namespace panel_dossier;
using namespace panel_dossier::fire;

namespace {

DataTable table(const char* path) {
  return DataTable(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / path);
}

}  // namespace

TEST_CASE("Charring rates are those of EN 1995-1-2 table 3.1") {
  const DataTable rates = table("plugins/fire/data/charring_rates.csv");
  CHECK(rates.number("SOFTWOOD", "one_dimensional_mm_per_min")->value == 0.65);
  CHECK(rates.number("SOFTWOOD", "notional_mm_per_min")->value == 0.8);
  CHECK(rates.number("GLULAM", "notional_mm_per_min")->value == 0.7);
}

TEST_CASE("An unprotected softwood member has an effective char depth of 55 mm after 60 minutes") {
  // Handbook value of the reduced cross-section method: 0.8·60 + 7 mm; glulam 0.7·60 + 7 = 49 mm. Exact.
  CHECK(effective_char_depth_mm(60.0, 0.0, 0.8) == Approx(55.0));
  CHECK(effective_char_depth_mm(60.0, 0.0, 0.7) == Approx(49.0));
  CHECK(effective_char_depth_mm(30.0, 0.0, 0.8) == Approx(31.0));
}

TEST_CASE("Gypsum boards of 12.5 and 15 mm delay charring by 21 and 28 minutes") {
  // Handbook values of (3.11), tch = 2.8·hp − 14. Exact.
  CHECK(gypsum_charring_start_min(12.5) == Approx(21.0));
  CHECK(gypsum_charring_start_min(15.0) == Approx(28.0));
}

TEST_CASE("A wood panel of reference density and 20 mm chars through at its tabulated rate") {
  // (3.10) with kρ = kh = 1: 20/0.9 = 22.2 min. Exact.
  CHECK(wood_panel_charring_start_min(20.0, 0.9, 450.0) == Approx(20.0 / 0.9));
}

TEST_CASE("The char depth is the integral of the charring rate") {
  // Rates of EN 1995-1-2 3.4.3.2 integrated in steps of 1/1000 min, apart from the closed form. The midpoint rule errs
  // by at most one step's depth at each of two kinks: 2·1.6/1000 mm.
  const double start_min = 21.0;
  const double rate = 0.8;
  double depth_mm = 0.0;
  const int steps = 60'000;
  for (int i = 0; i < steps; ++i) {
    const double t = 60.0 * (i + 0.5) / steps;
    if (t <= start_min) continue;
    const bool fast = depth_mm < 25.0 && t < 2.0 * start_min;
    depth_mm += (fast ? 2.0 : 1.0) * rate * 60.0 / steps;
  }
  CHECK(char_depth_mm(60.0, start_min, rate) == Approx(depth_mm).margin(0.0032));
}

TEST_CASE("Strengths used in fire are those of the structural strength classes") {
  const DataTable fire = table("plugins/fire/data/timber_in_fire.csv");
  const DataTable structure = table("plugins/structural/data/strength_classes.csv");
  CHECK(fire.keys() == structure.keys());
  for (const std::string& key : fire.keys()) {
    INFO(key);
    for (const char* column : {"compression_parallel", "modulus_fifth"}) {
      CHECK(fire.number(key, column)->value == structure.number(key, column)->value);
    }
    CHECK(fire.text(key, "family")->value == structure.text(key, "family")->value);
  }
}
