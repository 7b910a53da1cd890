// EN 1995-1-2:2004 annex E by hand, and the trade's experience of bare cassettes. Values from memory.
#include <catch2/catch.hpp>
#include <filesystem>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/properties.h"
#include "plugins/fire/calculation/cassette.h"
#include "plugins/fire/calculation/separating_function.h"

using namespace panel_dossier;
using namespace panel_dossier::fire;
using namespace panel_dossier::testing;

namespace {

SeparatingFunction function_of(const Project& project, bool fire_inside) {
  const Tables tables(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "plugins/fire/data");
  const Panel& panel = project.panels.front();
  return separating_function(read_cassette(panel, project, tables), panel, tables, fire_inside);
}

}  // namespace

TEST_CASE("A single-layer wall with stone wool adds up as annex E does by hand") {
  // Formulas restated, from memory. Fire on gypsum 12 mm: 1.4·12·(0.02·12 + 0.54) = 13.10; stone wool 145 mm of 50
  // kg/m³: 0.2·145·1.1 = 31.9; strand board 12 mm behind 145 mm of it: 0.95·12·3.9 = 44.46. Sum 89.5 min; hand rounding
  // 0.05.
  const auto function = function_of(cassette_project(), false);
  REQUIRE(function.missing.empty());
  CHECK(function.layers[0].minutes() == Approx(13.10).margin(0.05));
  CHECK(function.layers[1].minutes() == Approx(31.9).margin(0.05));
  CHECK(function.layers[2].minutes() == Approx(44.46).margin(0.05));
}

TEST_CASE("The same wall with glass wool adds up as annex E does by hand") {
  // Formulas restated, from memory. Glass wool 145 mm of 20 kg/m³: 0.1·145·1.0 = 14.5; board behind it:
  // 0.95·12·(0.07·12 − 0.17) = 7.64.
  Project project = cassette_project();
  project.materials[kWool].name = "glass wool";
  replace(project.materials[kWool].properties, "Pset_MaterialCommon", "MassDensity", property_of(20.0));
  const auto function = function_of(project, false);
  REQUIRE(function.missing.empty());
  CHECK(function.layers[1].minutes() == Approx(14.5).margin(0.05));
  CHECK(function.layers[2].minutes() == Approx(7.64).margin(0.05));
}

TEST_CASE("Basic insulation values are those of annex E") {
  // Values restated. (E.2) plywood 0.95·hp, (E.3) particleboard 1.1·hp, (E.5) gypsum 1.4·hp, (E.6) stone wool 0.2·h,
  // (E.7) glass wool 0.1·h; table E2: kdens of stone wool 1.0 at 26 and 1.1 at 50 kg/m³. From memory.
  const Tables tables(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "plugins/fire/data");
  const auto rate = [](const DataTable& table, const char* row) {
    return table.number(row, "insulation_min_per_mm")->value;
  };
  CHECK(rate(tables.boards, "PLYWOOD") == 0.95);
  CHECK(rate(tables.boards, "PARTICLEBOARD") == 1.1);
  CHECK(rate(tables.boards, "GYPSUM_F") == 1.4);
  CHECK(rate(tables.cavity_insulation, "STONE_WOOL") == 0.2);
  CHECK(rate(tables.cavity_insulation, "GLASS_WOOL") == 0.1);
  CHECK(tables.cavity_insulation.number("STONE_WOOL", "factor_2")->value == 1.1);
}

TEST_CASE("A bare cassette with stone wool is calculated at 60 minutes and more from either side") {
  // Common practice, no source: bare cassettes of this kind are rated at least 60 minutes by test before any lining or
  // cladding. The calculation must not contradict that.
  const Project project = cassette_project();
  CHECK(function_of(project, true).insulation_time_min() >= 60.0);
  CHECK(function_of(project, false).insulation_time_min() >= 60.0);
}

TEST_CASE("A cassette with the same board on either face takes the same time from either side") {
  // (E.1) knows no inside and outside.
  Project project = cassette_project();
  project.panels.front().layers.back().material = kOsb;
  CHECK(function_of(project, true).insulation_time_min() == Approx(function_of(project, false).insulation_time_min()));
}

TEST_CASE("Thicker boards, more wool and denser wool each add time") {
  // Annex E: every basic value grows with thickness, kdens with density, kpos behind stone wool with its thickness.
  const auto thicker = [](std::size_t layer, double more_m) {
    Project project = cassette_project();
    project.panels.front().layers[layer].thickness_m.value += more_m;
    return project;
  };
  Project denser = cassette_project();
  replace(denser.materials[kWool].properties, "Pset_MaterialCommon", "MassDensity", property_of(40.0));
  for (const bool fire_inside : {true, false}) {
    const double base_min = function_of(cassette_project(), fire_inside).insulation_time_min();
    for (const std::size_t layer : {0U, 1U, 2U}) {
      const SeparatingFunction function = function_of(thicker(layer, 0.003), fire_inside);
      REQUIRE(function.missing.empty());
      CHECK(function.insulation_time_min() > base_min);
    }
    CHECK(function_of(denser, fire_inside).insulation_time_min() < base_min);
  }
}
