#include "plugins/fire/evidence/tested_layers.h"

#include <catch2/catch.hpp>
#include <string>
#include <utility>

#include "tests/fire/tested_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

const CheckDeclaration kAnyCheck{.id = "fire.any", .title = "any", .sentence = "Any.", .clause = "none"};

/// The open points of the panel against this build-up.
std::vector<std::string> open_points(const Project& project, const char* build_up) {
  Project tested = project;
  replace(properties_of(tested), "Panel_FireEvidence", "BuildUp", property_of(build_up));
  FindingBuilder builder(kAnyCheck, "panel");
  return fire::compare_layers(builder, tested.panels.front(), tested, std::size_t{1}).open_points;
}

}  // namespace

TEST_CASE("A tested layer is read with its thickness and density") {
  const auto layers =
      fire::parse_tested_layers("Board type OSB/3 12.5 (600 kg/m3); Stone wool (slab) 140 ( 40 kg/m³ ); x 1");
  REQUIRE(layers);
  REQUIRE(layers->size() == 3);
  CHECK(layers->at(0).material == "Board type OSB/3");
  CHECK(layers->at(0).thickness_mm == 12.5);
  CHECK(layers->at(0).density_kg_per_m3 == 600.0);
  CHECK(layers->at(1).material == "Stone wool (slab)");
  CHECK(layers->at(1).density_kg_per_m3 == 40.0);
  CHECK_FALSE(layers->at(2).density_kg_per_m3);
}

TEST_CASE("A build-up in other words is not read") {
  for (const char* text : {"", "board", "board 0", "board -12", "12", "board 12 (40)", "board 12 (40 lb/ft3)",
                           "board 12 (-40 kg/m3)", "board 12 (kg/m3)", "board 12)", "board 12; ; board 12"}) {
    INFO(text);
    CHECK_FALSE(fire::parse_tested_layers(text));
  }
}

TEST_CASE("A material in several layers is found where the layers tested stand together") {
  Project project = tested_panel();
  Panel& panel = project.panels.front();
  // A second sheet of the tested outer board, outside a void: the tested layers still stand side by side.
  add_layer(panel, "void", "air", kGypsum, 0.169, 0.2);
  panel.layers.back().material.reset();
  add_layer(panel, "second board", "finish", kGypsum, 0.2, 0.212);
  panel.properties.add("Panel_FireEvidence", "AddedLayers", property_of("A2-s1,d0"));
  CHECK(open_points(project, "OSB 12 (620 kg/m3); stone wool 140 (50 kg/m3); gypsum 12 (800 kg/m3)").empty());
  CHECK(open_points(project, "gypsum 12 (800 kg/m3); gypsum 12 (800 kg/m3)").size() == 3);
}

TEST_CASE("A layer without a class is no added layer that a report covers") {
  Project project = tested_panel();
  remove(project.materials[kTimber].properties, "Panel_Fire.ReactionToFire");
  add_layer(project.panels.front(), "boarding", "finish", kTimber, 0.169, 0.19);
  project.panels.front().properties.add("Panel_FireEvidence", "AddedLayers", property_of("F"));
  const auto points = open_points(project, "OSB 12 (620 kg/m3); stone wool 140 (50 kg/m3); gypsum 12 (800 kg/m3)");
  REQUIRE(points.size() == 1);
  CHECK(points.front() ==
        "'boarding' (21 mm, no class) was not tested, and the report covers added layers of 'F' "
        "(Panel_FireEvidence.AddedLayers)");
}

TEST_CASE("A thin layer counts unless its weight is known to be small") {
  Project project = tested_panel();
  project.materials.push_back(material_of("foil", "metal", 2700.0));
  add_layer(project.panels.front(), "foil", "membrane", project.materials.size() - 1, 0.169, 0.1695);
  const char* tested = "OSB 12 (620 kg/m3); stone wool 140 (50 kg/m3); gypsum 12 (800 kg/m3)";
  // 0.5 mm of 2700 kg/m³: 1.35 kg/m².
  CHECK(open_points(project, tested).size() == 1);
  replace(project.materials.back().properties, "Pset_MaterialCommon", "MassDensity", property_of(1900.0));
  CHECK(open_points(project, tested).empty());
  // 1 kg/m² is the limit of EN 13501-1, and 1.05 kg/m² are above it.
  replace(project.materials.back().properties, "Pset_MaterialCommon", "MassDensity", property_of(2100.0));
  CHECK(open_points(project, tested).size() == 1);
  remove(project.materials.back().properties, "Pset_MaterialCommon.MassDensity");
  CHECK(open_points(project, tested).size() == 1);
}

TEST_CASE("A light layer counts from 1 mm on") {
  const char* tested = "OSB 12 (620 kg/m3); stone wool 140 (50 kg/m3); gypsum 12 (800 kg/m3)";
  for (const auto& [outer_m, points] : {std::pair{0.16995, 0}, std::pair{0.17005, 1}}) {
    Project project = tested_panel();
    project.materials.push_back(material_of("felt", "membrane", 200.0));
    add_layer(project.panels.front(), "felt", "membrane", project.materials.size() - 1, 0.169, outer_m);
    CHECK(open_points(project, tested).size() == static_cast<std::size_t>(points));
  }
}

TEST_CASE("A void of the test is compared like a layer") {
  Project project = tested_panel();
  Panel& panel = project.panels.front();
  add_layer(panel, "void", "air", kGypsum, 0.169, 0.199);
  panel.layers.back().material.reset();
  add_layer(panel, "cladding", "finish", kGypsum, 0.199, 0.211);
  const std::string boards = "OSB 12 (620 kg/m3); stone wool 140 (50 kg/m3); gypsum 12 (800 kg/m3)";
  const std::string cladding = "; gypsum 12 (800 kg/m3)";
  CHECK(open_points(project, (boards + "; air 30" + cladding).c_str()).empty());
  CHECK(open_points(project, (boards + "; air 40" + cladding).c_str()).size() == 1);
  CHECK(open_points(project, (boards + cladding).c_str()).size() == 1);
}
