#include "core/api/support/take_off.h"

#include <catch2/catch.hpp>
#include <limits>
#include <string>
#include <vector>

using namespace panel_dossier;

namespace {

Property number(double value) {
  return {value, "", {}};
}

Material material(const std::string& name, double density_kg_per_m3) {
  Material result;
  result.name = name;
  result.properties.add("Pset_MaterialCommon", "MassDensity", number(density_kg_per_m3));
  return result;
}

/// Softwood at 0 and steel at 1; `unknown` at 2 has no density.
Project project_with_materials() {
  Project project;
  project.materials = {material("softwood", 420.0), material("steel", 7850.0), Material{}};
  project.materials[2].name = "unknown";
  return project;
}

/// An upright block with its lower corner at (x, 0, 0).
Part block(const std::string& name, double x_m, double width_m, double depth_m, double height_m) {
  Part part;
  part.name = name;
  part.kind = PartKind::stud;
  part.material = 0;
  part.solid = Extrusion{
      {{x_m, 0.0}, {x_m + width_m, 0.0}, {x_m + width_m, depth_m}, {x_m, depth_m}}, {}, {0.0, 0.0, 1.0}, height_m};
  part.volume_m3 = Sourced<double>{part.solid->volume_m3(), {}};
  return part;
}

/// Of softwood, from `inside_m` to `outside_m` through the panel.
Layer wood_layer(const std::string& name, double inside_m, double outside_m) {
  Layer layer;
  layer.name = name;
  layer.material = 0;
  layer.y_inside_m = inside_m;
  layer.y_outside_m = outside_m;
  layer.thickness_m.value = outside_m - inside_m;
  return layer;
}

/// A softwood board from `inside_m` to `outside_m` through the panel.
Part board(double inside_m, double outside_m) {
  Part part = block("board", 0.0, 1.0, outside_m - inside_m, 1.0);
  part.bounds = Box3{{0.0, inside_m, 0.0}, {1.0, outside_m, 1.0}};
  return part;
}

Opening window(const std::string& name) {
  Opening opening;
  opening.x_min_m = 1.0;
  opening.x_max_m = 2.0;
  opening.z_min_m = 1.0;
  opening.z_max_m = 2.0;
  opening.filling_entity = "IfcWindow";
  opening.filling_name = name;
  return opening;
}

void fit(Opening& opening, bool fitted, double mass_kg) {
  opening.filling_properties.add("Panel_Filling", "FactoryFitted", {fitted, "", {}});
  opening.filling_properties.add("Panel_Filling", "Mass", number(mass_kg));
}

}  // namespace

TEST_CASE("a part weighs density times volume") {
  const Project project = project_with_materials();
  Panel panel;
  panel.parts = {block("stud", 0.0, 0.05, 0.2, 2.5)};
  const TakeOff measured = take_off(panel, project);
  CHECK(measured.missing.empty());
  REQUIRE(measured.items.size() == 1);
  CHECK(measured.items[0].mass_kg == 10.5);
  CHECK(measured.mass_kg() == 10.5);
  CHECK_FALSE(measured.items[0].declared_mass_kg);
}

TEST_CASE("a weight quantity stands for density times volume, net before gross") {
  const Project project = project_with_materials();
  Panel panel;
  panel.parts = {block("stud", 0.0, 0.05, 0.2, 2.5)};
  panel.parts[0].properties.add("Qto_MemberBaseQuantities", "GrossWeight", number(12.0));
  CHECK(take_off(panel, project).mass_kg() == 12.0);
  panel.parts[0].properties.add("Qto_MemberBaseQuantities", "NetWeight", number(11.0));
  const TakeOff measured = take_off(panel, project);
  CHECK(measured.mass_kg() == 11.0);
  CHECK(measured.items[0].declared_mass_kg->value == 11.0);
}

TEST_CASE("a weight quantity that is not positive is passed over") {
  const Project project = project_with_materials();
  for (const double bad : {0.0, -1.0, std::numeric_limits<double>::quiet_NaN()}) {
    Panel panel;
    panel.parts = {block("stud", 0.0, 0.05, 0.2, 2.5)};
    panel.parts[0].properties.add("Qto_MemberBaseQuantities", "NetWeight", number(bad));
    CHECK(take_off(panel, project).mass_kg() == 10.5);
  }
}

TEST_CASE("a material without density is named once") {
  const Project project = project_with_materials();
  Panel panel;
  panel.parts = {block("a", 0.0, 0.05, 0.2, 2.5), block("b", 1.0, 0.05, 0.2, 2.5)};
  panel.parts[0].material = 2;
  panel.parts[1].material = 2;
  const TakeOff measured = take_off(panel, project);
  CHECK(measured.missing ==
        std::vector<std::string>{"material 'unknown' has no positive Pset_MaterialCommon.MassDensity"});
  CHECK_FALSE(measured.mass_kg());
  CHECK_FALSE(measured.centre_of_gravity_m());
}

TEST_CASE("a density of zero and an infinite density do not count") {
  Project project = project_with_materials();
  project.materials[0] = material("softwood", 0.0);
  project.materials[1] = material("steel", std::numeric_limits<double>::infinity());
  Panel panel;
  panel.parts = {block("a", 0.0, 0.05, 0.2, 2.5), block("b", 1.0, 0.05, 0.2, 2.5)};
  panel.parts[1].material = 1;
  CHECK(take_off(panel, project).missing.size() == 2);
}

TEST_CASE("a part without material or volume says what is missing") {
  const Project project = project_with_materials();
  Panel panel;
  panel.parts = {block("a", 0.0, 0.05, 0.2, 2.5), Part{}};
  panel.parts[0].material.reset();
  panel.parts[1].name = "b";
  CHECK(take_off(panel, project).missing ==
        std::vector<std::string>{"'a' has no material",
                                 "part 'b' has neither a shape nor a volume nor a weight quantity"});
}

TEST_CASE("a panel without parts is measured by its layers over the net area, without position") {
  const Project project = project_with_materials();
  Panel panel;
  panel.width_m.value = 3.0;
  panel.height_m.value = 2.0;
  panel.openings = {window("")};
  panel.openings[0].filling_entity.clear();
  Layer wood;
  wood.name = "wood";
  wood.material = 0;
  wood.thickness_m.value = 0.1;
  Layer air;
  air.name = "air";
  air.thickness_m.value = 0.05;
  panel.layers = {wood, air};
  const TakeOff measured = take_off(panel, project);
  REQUIRE(measured.items.size() == 1);
  CHECK(measured.items[0].layer == std::size_t{0});
  CHECK(*measured.mass_kg() == Approx(420.0 * 5.0 * 0.1).epsilon(1e-12));
  CHECK_FALSE(measured.centre_of_gravity_m());
}

TEST_CASE("openings larger than the panel give no negative mass") {
  const Project project = project_with_materials();
  Panel panel;
  panel.width_m.value = 0.5;
  panel.height_m.value = 0.5;
  panel.openings = {window("")};
  panel.openings[0].filling_entity.clear();
  Layer wood;
  wood.name = "wood";
  wood.material = 0;
  wood.thickness_m.value = 0.1;
  panel.layers = {wood};
  const TakeOff measured = take_off(panel, project);
  CHECK(measured.items.empty());
  CHECK(measured.missing ==
        std::vector<std::string>{"layer 'wood' has no volume: check the panel's size, openings and layer thickness"});
}

TEST_CASE("a panel of nothing says so") {
  const TakeOff measured = take_off(Panel{}, Project{});
  CHECK(measured.missing == std::vector<std::string>{"the panel has neither parts nor material layers"});
  CHECK_FALSE(measured.mass_kg());
}

TEST_CASE("a factory-fitted window counts at the middle of its opening") {
  const Project project = project_with_materials();
  Panel panel;
  panel.thickness_m.value = 0.3;
  panel.parts = {block("stud", 0.0, 0.05, 0.2, 2.5)};
  panel.openings = {window("W1"), window("W2")};
  fit(panel.openings[0], true, 40.0);
  fit(panel.openings[1], false, 99.0);
  const TakeOff measured = take_off(panel, project);
  CHECK(measured.mass_kg() == 50.5);
  REQUIRE(measured.items.size() == 2);
  CHECK(measured.items[1].opening == std::size_t{0});
  CHECK(measured.items[1].centroid_m->x == 1.5);
  CHECK(measured.items[1].centroid_m->y == 0.15);
  CHECK(measured.items[1].centroid_m->z == 1.5);
}

TEST_CASE("a window that does not say whether it is factory fitted, or how heavy, is named") {
  const Project project = project_with_materials();
  Panel panel;
  panel.parts = {block("stud", 0.0, 0.05, 0.2, 2.5)};
  panel.openings = {window("W1"), window("W2")};
  fit(panel.openings[1], true, 0.0);
  CHECK(take_off(panel, project).missing ==
        std::vector<std::string>{"'W1' does not say Panel_Filling.FactoryFitted",
                                 "'W2' is factory fitted but has no positive Panel_Filling.Mass"});
}

TEST_CASE("an item without position leaves the mass and hides the centre of gravity") {
  const Project project = project_with_materials();
  Panel panel;
  panel.parts = {block("stud", 0.0, 0.05, 0.2, 2.5), Part{}};
  panel.parts[1].name = "screws";
  panel.parts[1].properties.add("Panel_FastenerQuantities", "GrossWeight", number(1.0));
  const TakeOff measured = take_off(panel, project);
  CHECK(measured.mass_kg() == 11.5);
  CHECK_FALSE(measured.centre_of_gravity_m());
}

TEST_CASE("a layer whose material no part stands for is named, and the panel has no mass") {
  const Project project = project_with_materials();
  Panel panel;
  panel.parts = {board(0.0, 0.02)};
  panel.parts[0].material = 1;
  panel.layers = {wood_layer("lining", 0.0, 0.02)};
  const TakeOff measured = take_off(panel, project);
  CHECK(measured.missing == std::vector<std::string>{"layer 'lining' has no part"});
  CHECK_FALSE(measured.mass_kg());
}

TEST_CASE("a layer without material needs no part") {
  const Project project = project_with_materials();
  Panel panel;
  panel.parts = {board(0.0, 0.02)};
  panel.layers = {wood_layer("lining", 0.0, 0.02), wood_layer("void", 0.02, 0.06)};
  panel.layers[1].material.reset();
  CHECK(take_off(panel, project).missing.empty());
}

TEST_CASE("parts stand for a layer when they reach through half of it together") {
  struct Case {
    const char* label;
    std::vector<Part> parts;
    bool stands;
  };
  const std::vector<Case> cases = {{"whole", {board(0.1, 0.3)}, true},
                                   {"just half", {board(0.2, 0.3)}, true},
                                   {"less than half", {board(0.201, 0.3)}, false},
                                   {"three slabs", {board(0.1, 0.16), board(0.16, 0.22), board(0.22, 0.3)}, true},
                                   {"one slab beside another", {board(0.1, 0.16), board(0.1, 0.16)}, false},
                                   {"in front of the layer", {board(0.0, 0.1)}, false},
                                   {"thicker than the layer", {board(0.0, 0.5)}, true}};
  for (const Case& c : cases) {
    INFO(c.label);
    Panel panel;
    panel.parts = c.parts;
    panel.layers = {wood_layer("wool", 0.1, 0.3)};
    CHECK(layers_without_parts(panel).empty() == c.stands);
  }
}

TEST_CASE("a part without a box stands for the layers of its material") {
  Panel panel;
  panel.parts = {block("board", 0.0, 1.0, 0.02, 1.0)};
  panel.layers = {wood_layer("lining", 0.0, 0.02)};
  CHECK(layers_without_parts(panel).empty());
}

TEST_CASE("a panel without parts has no layer that lacks one") {
  Panel panel;
  panel.layers = {wood_layer("lining", 0.0, 0.02)};
  CHECK(layers_without_parts(panel).empty());
}

TEST_CASE("a shape drawn once for several pieces weighs that often, a quantity is of all pieces already") {
  const Project project = project_with_materials();
  Panel panel;
  panel.parts = {block("stud", 0.0, 0.05, 0.2, 2.5)};
  panel.parts[0].count = 4;
  const TakeOff drawn = take_off(panel, project);
  CHECK(drawn.items[0].volume_m3 == 4.0 * panel.parts[0].volume_m3->value);
  CHECK(drawn.mass_kg() == 42.0);
  panel.parts[0].solid.reset();
  CHECK(take_off(panel, project).mass_kg() == 10.5);
  panel.parts[0] = block("stud", 0.0, 0.05, 0.2, 2.5);
  panel.parts[0].count = 4;
  panel.parts[0].properties.add("Qto_MemberBaseQuantities", "NetWeight", number(41.0));
  CHECK(take_off(panel, project).mass_kg() == 41.0);
}
