// A small house as an ordinary drawing program exports it: IFC2x3, walls with layers and no parts, no sets of ours.
#include <catch2/catch.hpp>

#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

IntakeResult house() {
  IntakeOptions options = intake_test::options();
  options.default_layer_order = LayerOrder::outside_to_inside;
  return read_export(intake_test::file_text("house-ifc2x3-drawing.ifc"), "house.ifc", options);
}

TEST_CASE("walls with layers are read as panels of unknown framing", "[intake]") {
  const IntakeResult result = house();
  INFO(intake_test::all_of(result.diagnostics));
  CHECK(result.schema_version == "IFC2x3 TC1");
  REQUIRE(result.project);
  REQUIRE(result.project->panels.size() == 2);
  const Panel& panel = result.project->panels.front();
  CHECK(panel.mark == "354711");
  CHECK(panel.name == "Außenwand:Timber frame 245:354711");
  CHECK(panel.type == "Timber frame 245");
  CHECK(panel.parts.empty());
  CHECK(panel.width_m.value == Approx(4.0));
  CHECK(panel.height_m.value == Approx(2.7));
  CHECK(panel.thickness_m.value == Approx(0.245));
  CHECK(result.project->panels.back().width_m.value == Approx(3.0));
  CHECK(result.project->storeys.front().name == "Ground floor");
}

TEST_CASE("the layers of a usage stand from inside to outside with their materials", "[intake]") {
  const IntakeResult result = house();
  REQUIRE(result.project);
  const Panel& panel = result.project->panels.front();
  REQUIRE(panel.layers.size() == 4);
  CHECK(panel.layers.front().name == "Gypsum fibre board");
  CHECK(panel.layers.front().thickness_m.value == Approx(0.015));
  CHECK(panel.layers.back().name == "Render");
  CHECK(panel.layers[1].is_ventilated == false);
  REQUIRE(panel.layers[1].material);
  const Material& wool = result.project->materials[*panel.layers[1].material];
  CHECK(wool.density_kg_per_m3()->value == Approx(45.0));
  CHECK(wool.properties.number("Pset_MaterialThermal", "ThermalConductivity")->value == Approx(0.035));
}

TEST_CASE("sets, quantities and openings of the drawing program are read", "[intake]") {
  const IntakeResult result = house();
  REQUIRE(result.project);
  const Panel& panel = result.project->panels.front();
  CHECK(panel.load_bearing()->value == true);
  CHECK(panel.properties.text("Pset_WallCommon", "FireRating")->value == "REI 30");
  CHECK(panel.properties.number("BaseQuantities", "Length")->value == Approx(4.0));
  REQUIRE(panel.openings.size() == 1);
  CHECK(panel.openings[0].filling_entity == "IfcWindow");
  CHECK(panel.openings[0].z_min_m == Approx(0.9));
  CHECK(panel.openings[0].z_max_m == Approx(2.2));
  CHECK(panel.openings[0].x_max_m - panel.openings[0].x_min_m == Approx(1.2));
  CHECK(result.project->panels.back().openings.empty());
}

TEST_CASE("its habits are remarked once, what is no wall is a neighbour, and what is not read is counted", "[intake]") {
  const IntakeResult result = house();
  CHECK(intake_test::all_of(result.diagnostics) ==
        "house.ifc:34:1: warning: IfcBuilding #34 1HP_bdVX_yK0xB5r7kmxAc: 1 times from here on: absent values are "
        "written "
        "'*' instead of '$'; they are read as absent\n");
  REQUIRE(result.project);
  REQUIRE(result.project->neighbours.size() == 1);
  CHECK(result.project->neighbours[0].kind == NeighbourKind::slab);
  CHECK(result.project->neighbours[0].name == "Floor slab");
  CHECK(result.skipped.at("IfcColourRgb") == 1);
  CHECK(result.skipped.count("IfcWallStandardCase") == 0);
}

}  // namespace
}  // namespace panel_dossier
