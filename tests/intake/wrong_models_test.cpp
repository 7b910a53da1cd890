// Models that are wrong in one thing which once passed without a word.
#include <algorithm>
#include <catch2/catch.hpp>

#include "core/api/testing/panels.h"
#include "core/intake/claims/model_claims.h"
#include "tests/intake/shapes/small_export.h"

namespace panel_dossier {

using namespace intake_test;

namespace {

/// A wall of 2 by 0.2 by 2.5 m, made of clay.
std::string clay_wall(const std::string& mark, const Vec3& at, const std::string& inside = {}) {
  return "<IfcWall " + identity(mark) + ">" + placed_at(at) + body_of(extrusion(rectangle_profile(2.0, 0.2), 2.5)) +
         inside + "</IfcWall>";
}

std::string layers_of(const std::string& set) {
  return "<IfcRelAssociatesMaterial GlobalId=\"" + global_id() +
         "\"><RelatingMaterial xsi:type=\"IfcMaterialLayerSet\" LayerSetName=\"" + set +
         "\"><MaterialLayers><IfcMaterialLayer LayerThickness=\"0.2\"><Material Name=\"Clay of " + set +
         "\"/></IfcMaterialLayer></MaterialLayers></RelatingMaterial></IfcRelAssociatesMaterial>";
}

std::string associated(const std::string& associations) {
  return "<HasAssociations>" + associations + "</HasAssociations>";
}

/// From the corner of the wall, 1 m wide and high and this deep.
std::string opening(double depth_m, const std::string& filling = {}) {
  const std::string text = with_opening("Opening 1", extrusion(rectangle_profile(1.0, depth_m), 1.0, {0.5, 0.0, 0.5}));
  if (filling.empty()) return text;
  return edited(text, "", "</RelatedOpeningElement>",
                "<HasFillings><IfcRelFillsElement GlobalId=\"" + global_id() +
                    "\"><RelatedBuildingElement xsi:type=\"IfcWindow\" " + identity("Window 1") + " " + filling +
                    "/></IfcRelFillsElement></HasFillings></RelatedOpeningElement>");
}

IntakeResult result_of(const std::string& text) {
  IntakeOptions how = options();
  how.default_layer_order = LayerOrder::inside_to_outside;
  return read_export(text, "small.ifcxml", how);
}

IntakeResult result_of_wall(const std::string& inside) {
  return result_of(export_text(clay_wall("P", {}, inside + associated(layers_of("Outer")))));
}

bool says(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("an opening through the panel is a hole", "[wrong models]") {
  const IntakeResult result = result_of_wall(opening(0.2));
  INFO(all_of(result.diagnostics));
  REQUIRE(result.project);
  CHECK(result.project->panels.front().openings.size() == 1);
  CHECK(result.project->panels.front().contradictions.empty());
}

TEST_CASE("a recess is no hole, and the layers do not hold there", "[wrong models]") {
  const IntakeResult result = result_of_wall(opening(0.01));
  INFO(all_of(result.diagnostics));
  REQUIRE(result.project);
  const Panel& panel = result.project->panels.front();
  CHECK(panel.openings.empty());
  CHECK(panel.contradictions.contains("layers"));
  CHECK(says(all_of(result.diagnostics), "the opening reaches through 0.01 m of the 0.2 m of what it voids; it is no"));
}

TEST_CASE("a window that does not go through stays, and the layers do not hold there", "[wrong models]") {
  const IntakeResult result = result_of_wall(opening(0.01, "OverallHeight=\"1.\" OverallWidth=\"1.\""));
  INFO(all_of(result.diagnostics));
  REQUIRE(result.project);
  const Panel& panel = result.project->panels.front();
  CHECK(panel.openings.size() == 1);
  CHECK(panel.contradictions.contains("layers"));
}

TEST_CASE("a window that is much larger than its opening contradicts it", "[wrong models]") {
  const IntakeResult result = result_of_wall(opening(0.2, "OverallHeight=\"1.1\" OverallWidth=\"2.\""));
  INFO(all_of(result.diagnostics));
  REQUIRE(result.project);
  CHECK(result.project->panels.front().contradictions.count("layers") == 1);
  CHECK(
      says(all_of(result.diagnostics), "the opening is 1 m wide and IfcWindow 'Window 1' in it has OverallWidth 2 m"));
}

TEST_CASE("a stated volume that is not that of the shape is remarked", "[wrong models]") {
  for (const auto& [stated, is_remarked] : {std::pair("0.00001", true), std::pair("0.8", false)}) {
    const IntakeResult result = result_of_wall(
        opening(0.2) + "<IsDefinedBy><IfcRelDefinesByProperties GlobalId=\"" + global_id() +
        "\"><RelatingPropertyDefinition><IfcElementQuantity GlobalId=\"" + global_id() +
        "\" Name=\"Qto_WallBaseQuantities\"><Quantities><IfcQuantityVolume Name=\"NetVolume\" VolumeValue=\"" + stated +
        "\"/></Quantities></IfcElementQuantity></RelatingPropertyDefinition></IfcRelDefinesByProperties></"
        "IsDefinedBy>");
    INFO(all_of(result.diagnostics));
    REQUIRE(result.project);
    CHECK(says(all_of(result.diagnostics), "m³ and its shape holds 0.8 m³; the shape is used") == is_remarked);
  }
}

TEST_CASE("of parts that reach beyond the stated size the one farthest from the middle of all is named",
          "[wrong models]") {
  // Middles at 0.05 m, `between` and 4.05 m: their mean lies above or below 2.05 m.
  for (const auto& [between_m, farthest] : {std::pair(2.14, "First"), std::pair(1.96, "Last")}) {
    const auto plate = [](const char* name, double middle_m) {
      return "<IfcPlate " + identity(name) + ">" + placed_at({middle_m - 0.05, 0.0, 0.0}) +
             body_of(extrusion(rectangle_profile(0.1, 0.2), 2.5)) + "</IfcPlate>";
    };
    std::string panel = assembly("P", plate("First", 0.05) + plate("Between", between_m) + plate("Last", 4.05));
    panel.insert(panel.rfind("</IfcElementAssembly>"),
                 "<IsDefinedBy><IfcRelDefinesByProperties GlobalId=\"" + global_id() +
                     "\"><RelatingPropertyDefinition><IfcElementQuantity GlobalId=\"" + global_id() +
                     "\" Name=\"Qto_WallBaseQuantities\"><Quantities><IfcQuantityLength Name=\"Length\" "
                     "LengthValue=\"1.\"/></Quantities></IfcElementQuantity></RelatingPropertyDefinition>"
                     "</IfcRelDefinesByProperties></IsDefinedBy>");
    const std::string name = std::string("\" Name=\"") + farthest;
    const std::string id = panel.substr(panel.find(name) - 22, 22);
    const IntakeResult result = result_of(export_text(panel));
    INFO(all_of(result.diagnostics));
    const auto outside =
        std::find_if(result.diagnostics.begin(), result.diagnostics.end(), [](const Diagnostic& diagnostic) {
          return diagnostic.message.starts_with("the part lies outside its panel 'P': 'Qto_WallBaseQuantities.Length'");
        });
    REQUIRE(outside != result.diagnostics.end());
    CHECK(outside->global_id == id);
  }
}

TEST_CASE("parts that fall short of the stated size are remarked, and none of them lies outside", "[wrong models]") {
  std::string panel = assembly("P", "<IfcPlate " + identity("Only") + ">" + placed_at({0.0, 0.0, 0.0}) +
                                        body_of(extrusion(rectangle_profile(1.0, 0.2), 2.5)) + "</IfcPlate>");
  panel.insert(panel.rfind("</IfcElementAssembly>"),
               "<IsDefinedBy><IfcRelDefinesByProperties GlobalId=\"" + global_id() +
                   "\"><RelatingPropertyDefinition><IfcElementQuantity GlobalId=\"" + global_id() +
                   "\" Name=\"Qto_WallBaseQuantities\"><Quantities><IfcQuantityLength Name=\"Length\" "
                   "LengthValue=\"4.\"/></Quantities></IfcElementQuantity></RelatingPropertyDefinition>"
                   "</IfcRelDefinesByProperties></IsDefinedBy>");
  const std::string said = all_of(result_of(export_text(panel)).diagnostics);
  INFO(said);
  CHECK(says(said, "'Qto_WallBaseQuantities.Length' is 4 m and its parts measure 1 m; the shape is used"));
  CHECK_FALSE(says(said, "the part lies outside its panel"));
}

TEST_CASE("an opening that voids nothing is named with its window", "[wrong models]") {
  const IntakeResult result =
      result_of(export_text(clay_wall("P", {}, associated(layers_of("Outer"))),
                            "<IfcOpeningElement " + identity("Lost") + "><HasFillings><IfcRelFillsElement GlobalId=\"" +
                                global_id() + "\"><RelatedBuildingElement xsi:type=\"IfcWindow\" " +
                                identity("Window 1") + "/></IfcRelFillsElement></HasFillings></IfcOpeningElement>"));
  INFO(all_of(result.diagnostics));
  REQUIRE(result.project);
  CHECK(says(all_of(result.diagnostics), "voids nothing and counts for no panel, nor does IfcWindow 'Window 1' in it"));
}

TEST_CASE("two layer sets on one wall are an error that names both", "[wrong models]") {
  const IntakeResult result =
      result_of(export_text(clay_wall("P", {}, associated(layers_of("Outer") + layers_of("Other")))));
  CHECK_FALSE(result.project);
  CHECK(says(all_of(result.diagnostics), "is made of IfcMaterialLayerSet 'Outer' at line"));
  CHECK(says(all_of(result.diagnostics), "and of IfcMaterialLayerSet 'Other' at line"));
}

TEST_CASE("panels in one place contradict each other, panels that touch do not", "[wrong models]") {
  struct Case {
    const char* label;
    Vec3 at;
    bool contradicts;
  };
  for (const Case& one :
       {Case{"in the same place", {0.0, 0.0, 0.0}, true}, Case{"half a panel on", {1.0, 0.0, 0.0}, true},
        Case{"edge to edge", {2.0, 0.0, 0.0}, false}, Case{"lapped", {1.8, 0.0, 0.0}, false},
        Case{"face to face", {0.0, 0.2, 0.0}, false}, Case{"on top", {0.0, 0.0, 2.5}, false}}) {
    DYNAMIC_SECTION(one.label) {
      IntakeResult result = result_of(export_text(clay_wall("P", {}, associated(layers_of("Outer"))) +
                                                  clay_wall("Q", one.at, associated(layers_of("Other")))));
      INFO(all_of(result.diagnostics));
      REQUIRE(result.project);
      Reporter report("small.ifcxml");
      find_contradictions(*result.project, report);
      for (const Panel& panel : result.project->panels) {
        CHECK(panel.contradictions.contains("layers") == one.contradicts);
        CHECK(panel.contradictions.contains("parts") == one.contradicts);
      }
      CHECK(says(all_of(report.take()), "stand in one place") == one.contradicts);
    }
  }
}

TEST_CASE("a serial number of two panels is nobody's", "[wrong models]") {
  Project project;
  for (const char* mark : {"P", "Q", "R"}) {
    Panel& panel = project.panels.emplace_back();
    panel.mark = mark;
    panel.properties.add("Pset_ManufacturerOccurrence", "SerialNumber",
                         {std::string(panel.mark == "R" ? "2" : "1"), "", {}});
  }
  Reporter report("small.ifcxml");
  find_contradictions(project, report);
  for (const Panel& panel : project.panels) CHECK(panel.properties.withheld().empty() == (panel.mark == "R"));
  CHECK(says(all_of(report.take()), "serial number '1' is that of panels 'P'"));
}

}  // namespace panel_dossier
