// What of a panel's layers is the cassette that EN 1995-1-2 annex E calculates.
#include "plugins/fire/calculation/cassette.h"

#include <catch2/catch.hpp>
#include <functional>
#include <string>
#include <vector>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/properties.h"
#include "tests/fire/fire_tables.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// The cassette (OSB 12, studs with stone wool, gypsum type H 12) after a change.
fire::Cassette cassette_after(const std::function<void(Project&)>& change) {
  Project project = cassette_project();
  change(project);
  return fire::read_cassette(project.panels.front(), project, fire_tables());
}

using Missing = std::vector<std::string>;

}  // namespace

TEST_CASE("A wood panel is known by the standard of its product") {
  const auto inner = [](const char* standard, double density_kg_per_m3) {
    return cassette_after([&](Project& project) {
      Properties& board = project.materials[kOsb].properties;
      replace(board, "Panel_Board", "ProductStandard", property_of(standard));
      replace(board, "Pset_MaterialCommon", "MassDensity", property_of(density_kg_per_m3));
    });
  };
  // Least densities of annex E; OSB that of its characteristic value.
  const std::vector<std::tuple<const char*, const char*, double>> boards{{"EN 636 plywood", "PLYWOOD", 450.0},
                                                                         {"EN 300 OSB/3", "OSB", 550.0},
                                                                         {"EN 312 P5", "PARTICLEBOARD", 600.0},
                                                                         {"EN 622-5 MDF.LA", "PARTICLEBOARD", 600.0}};
  for (const auto& [standard, key, least_kg_per_m3] : boards) {
    INFO(standard);
    const auto cassette = inner(standard, least_kg_per_m3);
    CHECK(cassette.missing.empty());
    REQUIRE(cassette.inside);
    CHECK(cassette.inside->key == key);
    CHECK(cassette.inside->thickness_mm == Approx(12.0));
    CHECK(inner(standard, least_kg_per_m3 - 1.0).missing ==
          Missing{"layer 'inner board' is lighter than EN 1995-1-2 annex E covers"});
  }
  CHECK(inner("EN 14279 LVL", 650.0).missing ==
        Missing{"layer 'inner board': board type (Panel_Fire.ProtectionRole, for wood panels with "
                "Panel_Board.ProductStandard)"});
}

TEST_CASE("The cassette is framing with a board on either face, past membranes") {
  const auto plain = cassette_after([](Project&) {});
  REQUIRE(plain.missing.empty());
  CHECK(plain.inside->layer == 0);
  CHECK(plain.outside->layer == 2);
  CHECK(plain.not_counted.empty());
  // A foil of 0.4 mm lies between the studs and their board, and a lining before it is not counted.
  const auto lined = cassette_after([](Project& project) {
    auto& layers = project.panels.front().layers;
    Layer foil = layers.front();
    foil.name = "foil";
    foil.thickness_m.value = 0.0004;
    Layer lining = layers.front();
    lining.name = "lining";
    layers.insert(layers.begin() + 1, foil);
    layers.insert(layers.begin(), lining);
  });
  REQUIRE(lined.missing.empty());
  CHECK(lined.inside->layer == 1);
  CHECK(lined.not_counted == Missing{"lining"});
}

TEST_CASE("Framing that a face, or an air layer, leaves without a board is no cassette") {
  CHECK(cassette_after([](Project& p) { p.panels.front().layers.erase(p.panels.front().layers.begin()); }).missing ==
        Missing{"no board on the inner face of the framing"});
  CHECK(cassette_after([](Project& p) { p.panels.front().layers.pop_back(); }).missing ==
        Missing{"no board on the outer face of the framing"});
  CHECK(cassette_after([](Project& p) { p.panels.front().layers.back().material.reset(); }).missing ==
        Missing{"no board on the outer face of the framing"});
}

TEST_CASE("Wool without a density, and a filling that is no wool, are named") {
  CHECK(cassette_after([](Project& p) {
          remove(p.materials[kWool].properties, "Pset_MaterialCommon.MassDensity");
        }).missing == Missing{"material 'stone wool': Pset_MaterialCommon.MassDensity"});
  CHECK(cassette_after([](Project& p) { p.materials[kWool].name = "cellulose"; }).missing ==
        Missing{"layer 'studs' is neither stone wool nor glass wool (Panel_Fire.InsulationType); EN 1995-1-2 annex E "
                "has no values for it"});
  const auto mineral = cassette_after([](Project& p) { p.materials[kWool].name = "Mineral wool 35"; });
  REQUIRE(mineral.filling);
  CHECK(mineral.filling->key == "GLASS_WOOL");
  CHECK(mineral.filling->type_assumed);
  const auto rock = cassette_after([](Project& p) { p.materials[kWool].name = "Rock wool"; });
  CHECK(rock.filling.value().key == "STONE_WOOL");
  CHECK_FALSE(rock.filling->type_assumed);
}
