// Annex E of EN 1995-1-2:2004, its expressions and tables worked out by hand.
#include "plugins/fire/calculation/separating_function.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/properties.h"
#include "core/api/testing/temporary_folder.h"
#include "tests/fire/fire_tables.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// Fire on the outer face: gypsum 12 mm, 145 mm of stone wool, OSB 12 mm, unless changed.
fire::SeparatingFunction separation_of(const Project& project, const fire::Tables& tables = fire_tables()) {
  const Panel& panel = project.panels.front();
  return fire::separating_function(fire::read_cassette(panel, project, tables), panel, tables, false);
}

Project with_wool(const char* type, double density_kg_per_m3, double thickness_m) {
  Project project = cassette_project();
  replace(project.materials[kWool].properties, "Panel_Fire", "InsulationType", property_of(type));
  replace(project.materials[kWool].properties, "Pset_MaterialCommon", "MassDensity", property_of(density_kg_per_m3));
  project.panels.front().layers[1].thickness_m.value = thickness_m;
  return project;
}

Project with_gypsum(double thickness_mm) {
  Project project = cassette_project();
  project.panels.front().layers.back().thickness_m.value = thickness_mm / 1e3;
  return project;
}

}  // namespace

TEST_CASE("A board on the fire's side counts more the thicker it is, and in full from 23 mm on") {
  CHECK(fire::exposed_position_factor(12.0) == Approx(0.78));
  CHECK(fire::exposed_position_factor(22.0) == Approx(0.98));
  CHECK(fire::exposed_position_factor(25.0) == 1.0);
}

TEST_CASE("A board behind glass wool counts more the thicker it is, and a very thin one not at all") {
  CHECK(fire::unexposed_position_factor_behind_glass_wool(12.5) == Approx(0.705));
  CHECK(fire::unexposed_position_factor_behind_glass_wool(20.0) == Approx(1.23));
  CHECK(fire::unexposed_position_factor_behind_glass_wool(2.0) == 0.0);
}

TEST_CASE("Layers add up from the fire to the far side") {
  // Gypsum 1.4·12·0.78; stone wool of 50 kg/m³ 0.2·145·1.1; OSB 0.95·12·3.9 behind 145 mm.
  const auto function = separation_of(cassette_project());
  REQUIRE(function.missing.empty());
  REQUIRE(function.layers.size() == 3);
  CHECK(function.layers[0].minutes() == Approx(1.4 * 12.0 * 0.78));
  CHECK(function.layers[1].minutes() == Approx(0.2 * 145.0 * 1.1));
  CHECK(function.layers[2].minutes() == Approx(0.95 * 12.0 * 3.9));
  CHECK(function.insulation_time_min() == Approx(13.104 + 31.9 + 44.46));
}

TEST_CASE("Wool counts by its density, linear between those of table E2, and lighter wool not at all") {
  const auto factor = [](const char* type, double density_kg_per_m3) {
    const auto function = separation_of(with_wool(type, density_kg_per_m3, 0.145));
    const double rate = std::string(type) == "STONE_WOOL" ? 0.2 : 0.1;
    return function.missing.empty() ? function.layers.at(1).basic_min / (rate * 145.0) : 0.0;
  };
  CHECK(factor("STONE_WOOL", 26.0) == Approx(1.0));
  CHECK(factor("STONE_WOOL", 38.0) == Approx(1.05));
  CHECK(factor("STONE_WOOL", 80.0) == Approx(1.1));
  CHECK(factor("STONE_WOOL", 25.9) == 0.0);
  CHECK(factor("GLASS_WOOL", 15.0) == Approx(0.9));
  CHECK(factor("GLASS_WOOL", 17.5) == Approx(0.95));
  CHECK(factor("GLASS_WOOL", 23.0) == Approx(1.1));
  CHECK(factor("GLASS_WOOL", 14.9) == 0.0);
}

TEST_CASE("The board behind stone wool counts by the wool's thickness, linear between those of table E3") {
  const auto factor = [](double wool_m) {
    const auto function = separation_of(with_wool("STONE_WOOL", 50.0, wool_m));
    return function.missing.empty() ? function.layers.at(2).position_factor : 0.0;
  };
  CHECK(factor(0.0449) == 0.0);
  CHECK(factor(0.045) == Approx(1.5));
  CHECK(factor(0.095) == Approx(1.5));
  CHECK(factor(0.120) == Approx(2.7));
  CHECK(factor(0.170) == Approx(4.4));
  CHECK(factor(0.240) == Approx(4.9));
}

TEST_CASE("Boards are covered from the least to the largest thickness of table E3") {
  for (const double thickness_mm : {9.0, 12.5, 15.0}) CHECK(separation_of(with_gypsum(thickness_mm)).missing.empty());
  for (const double thickness_mm : {8.99, 15.01}) {
    CHECK(separation_of(with_gypsum(thickness_mm)).missing ==
          std::vector<std::string>{"layer 'outer board' is outside the thickness that EN 1995-1-2 table E3 covers"});
  }
}

TEST_CASE("A row of boards that lacks one of its numbers gives no time") {
  const std::filesystem::path data = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "plugins/fire/data";
  std::ifstream file(data / "boards.csv");
  const std::string all{std::istreambuf_iterator<char>(file), {}};
  // Rate, thickness from and thickness to.
  for (const char* without : {"GYPSUM_H,,,0,,0.15,9,15", "GYPSUM_H,1.4,,0,,0.15,,15", "GYPSUM_H,1.4,,0,,0.15,9,"}) {
    const TemporaryFolder folder;
    std::filesystem::copy(data, folder.path());
    std::string changed = all;
    const std::string row = "GYPSUM_H,1.4,,0,,0.15,9,15";
    changed.replace(changed.find(row), row.size(), without);
    folder.write("boards.csv", changed);
    INFO(without);
    CHECK(separation_of(cassette_project(), fire::Tables(folder.path())).missing ==
          std::vector<std::string>{"row 'GYPSUM_H' of boards.csv is incomplete"});
  }
}
