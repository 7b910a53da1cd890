// What stands beside the panels, and walls that are nothing but layers.
#include <catch2/catch.hpp>

#include "tests/intake/shapes/small_export.h"

namespace panel_dossier {

using namespace intake_test;

namespace {

std::string panel_of_sheet() {
  return assembly("P", "<IfcPlate " + identity("Sheet") + ">" + body_of(extrusion(rectangle_profile(2.0, 0.2), 2.5)) +
                           "</IfcPlate>");
}

std::string element(const std::string& entity, const std::string& name, const std::string& inside,
                    const std::string& attributes = {}) {
  return "<" + entity + " " + identity(name) + " " + attributes + ">" + inside + "</" + entity + ">";
}

const Neighbour& named(const Project& project, const std::string& name) {
  for (const Neighbour& neighbour : project.neighbours) {
    if (neighbour.name == name) return neighbour;
  }
  throw std::logic_error("no neighbour " + name);
}

IntakeOptions with_layer_order() {
  IntakeOptions how = options();
  how.default_layer_order = LayerOrder::inside_to_outside;
  return how;
}

}  // namespace

TEST_CASE("slabs, walls, columns, beams and roofs are neighbours where they stand", "[neighbours]") {
  const std::string slab_body = body_of(extrusion(rectangle_profile(10.0, 8.0), 0.25));
  const std::string layers =
      "<HasAssociations><IfcRelAssociatesMaterial GlobalId=\"" + global_id() +
      "\"><RelatingMaterial xsi:type=\"IfcMaterialLayerSetUsage\" LayerSetDirection=\"axis3\" "
      "DirectionSense=\"positive\" OffsetFromReferenceLine=\"0.\"><ForLayerSet><MaterialLayers><IfcMaterialLayer "
      "LayerThickness=\"0.2\"><Material Name=\"Concrete\"/></IfcMaterialLayer><IfcMaterialLayer "
      "LayerThickness=\"0.06\"><Material Name=\"Screed\"/></IfcMaterialLayer></MaterialLayers></ForLayerSet>"
      "</RelatingMaterial></IfcRelAssociatesMaterial></HasAssociations>";
  const Project project = project_of(
      export_text(panel_of_sheet() + element("IfcSlab", "Floor", placed_at({1.0, 2.0, -0.25}) + slab_body) +
                      element("IfcColumn", "Column",
                              placed_at({5.0, 5.0, 0.0}) + body_of(extrusion(rectangle_profile(0.4, 0.4), 3.0))) +
                      element("IfcBeam", "Beam", "") + element("IfcCurtainWall", "Front", ""),
                  "",
                  element("IfcSlab", "Layered floor", placed_at({0.0, 0.0, 2.74}) + slab_body + layers) +
                      element("IfcSlab", "Top", placed_at({0.0, 0.0, 5.7}) + slab_body, "PredefinedType=\"roof\"") +
                      element("IfcWall", "Core",
                              placed_at({3.0, 3.0, 3.0}) + body_of(extrusion(rectangle_profile(3.0, 0.2), 2.5))) +
                      element("IfcDoor", "Door", "")));
  CHECK(project.neighbours.size() == 7);
  const Neighbour& floor = named(project, "Floor");
  CHECK(floor.kind == NeighbourKind::slab);
  CHECK(floor.entity == "IfcSlab");
  REQUIRE(floor.bounds);
  CHECK(floor.bounds->min.x == Approx(1.0));
  CHECK(floor.bounds->max.y == Approx(10.0));
  CHECK(floor.bounds->min.z == Approx(-0.25));
  CHECK(floor.thickness_m->value == Approx(0.25));
  CHECK(floor.storey == std::size_t{0});
  CHECK(floor.origin.global_id == floor.global_id);
  const Neighbour& layered = named(project, "Layered floor");
  CHECK(layered.thickness_m->value == Approx(0.26));
  CHECK(layered.material == "Concrete, Screed");
  CHECK(layered.storey == std::size_t{1});
  CHECK(named(project, "Top").kind == NeighbourKind::roof);
  CHECK(named(project, "Core").kind == NeighbourKind::wall);
  CHECK(named(project, "Column").kind == NeighbourKind::column);
  CHECK_FALSE(named(project, "Column").thickness_m);
  CHECK_FALSE(named(project, "Beam").bounds);
  CHECK(to_string(named(project, "Front").kind) == "curtain wall");
}

TEST_CASE("a roof of slabs is its slabs, and what is within a panel is no neighbour", "[neighbours]") {
  const std::string slab =
      element("IfcSlab", "Pane", body_of(extrusion(rectangle_profile(4.0, 4.0), 0.2)), "PredefinedType=\"roof\"");
  const std::string roof =
      element("IfcRoof", "Roof",
              "<IsDecomposedBy><IfcRelAggregates GlobalId=\"" + global_id() + "\"><RelatedObjects>" + slab +
                  "</RelatedObjects></IfcRelAggregates></IsDecomposedBy>");
  const std::string panel = assembly(
      "P", "<IfcPlate " + identity("Sheet") + ">" + body_of(extrusion(rectangle_profile(2.0, 0.2), 2.5)) +
               "</IfcPlate>" + element("IfcBeam", "Lintel", body_of(extrusion(rectangle_profile(1.0, 0.1), 0.2))));
  const Project project = project_of(export_text(panel, "", roof));
  REQUIRE(project.neighbours.size() == 1);
  CHECK(project.neighbours[0].name == "Pane");
  CHECK(project.neighbours[0].kind == NeighbourKind::roof);
}

TEST_CASE("terrain is ground by how far its surface reaches", "[neighbours]") {
  const auto points = box_points({30.0, 20.0, 1.5});
  const std::string terrain =
      body_of("<IfcShellBasedSurfaceModel><SbsmBoundary>" + shell("IfcOpenShell", "", points, {{0, 1, 6, 7}}) +
              "</SbsmBoundary></IfcShellBasedSurfaceModel>");
  const Project project = project_of(export_text(panel_of_sheet(), "", "", terrain));
  REQUIRE(project.neighbours.size() == 1);
  CHECK(project.neighbours[0].kind == NeighbourKind::ground);
  CHECK(project.neighbours[0].bounds->max.x == Approx(30.0));
  CHECK(project.neighbours[0].bounds->max.z == Approx(1.5));
  CHECK(project_of(export_text(panel_of_sheet())).neighbours.empty());
}

TEST_CASE("a fault in a neighbour is a warning and refuses nothing", "[neighbours]") {
  const std::string text = export_text(
      panel_of_sheet() + element("IfcSlab", "Floor", body_of(extrusion(rectangle_profile(-1.0, 8.0), 0.25))) +
      element("IfcSlab", "Round", body_of("<IfcRevolvedAreaSolid Angle=\"1.\"/>")));
  const IntakeResult result = read_export(text, "small.ifcxml", options());
  INFO(all_of(result.diagnostics));
  REQUIRE(result.project);
  REQUIRE(result.diagnostics.size() == 2);
  for (const Diagnostic& diagnostic : result.diagnostics) CHECK(diagnostic.severity == Severity::warning);
  CHECK(all_of(result.diagnostics).find("belongs to no panel") != std::string::npos);
  CHECK(all_of(result.diagnostics).find("1 shapes of type 'IfcRevolvedAreaSolid' of what stands beside the panels") !=
        std::string::npos);
  for (const Neighbour& neighbour : result.project->neighbours) CHECK_FALSE(neighbour.bounds);
}

namespace {

/// A wall of two layers, 4 m long and 0.3 m thick, with this body and these openings.
std::string layered_wall(const std::string& body, const std::string& openings = {}) {
  return element(
      "IfcWallStandardCase", "W-1",
      body + openings + "<HasAssociations><IfcRelAssociatesMaterial GlobalId=\"" + global_id() +
          "\"><RelatingMaterial xsi:type=\"IfcMaterialLayerSetUsage\" LayerSetDirection=\"axis2\" "
          "DirectionSense=\"positive\" OffsetFromReferenceLine=\"0.\"><ForLayerSet><MaterialLayers><IfcMaterialLayer "
          "LayerThickness=\"0.1\"><Material Name=\"Clay\"/></IfcMaterialLayer><IfcMaterialLayer "
          "LayerThickness=\"0.2\"><Material Name=\"Straw\"/></IfcMaterialLayer></MaterialLayers></ForLayerSet>"
          "</RelatingMaterial></IfcRelAssociatesMaterial></HasAssociations>");
}

}  // namespace

TEST_CASE("a wall of layers under a sloping roof is a panel of its length, height and thickness", "[neighbours]") {
  const std::string axis = "<IfcShapeRepresentation RepresentationIdentifier=\"Axis\"><Items>" +
                           polyline("IfcPolyline", {{0.0, 0.0}, {4.0, 0.0}}) + "</Items></IfcShapeRepresentation>";
  const std::string clipped =
      difference(first_extrusion(rectangle_profile(4.0, 0.3), 5.0), half_space({0.0, 0.0, 2.0}, {1.0, 0.0, -4.0}));
  const std::string body = body_of(clipped).replace(body_of(clipped).find("<IfcShapeRepresentation"), 0, axis);
  const IntakeResult result = read_export(export_text(layered_wall(body)), "small.ifcxml", with_layer_order());
  INFO(all_of(result.diagnostics));
  REQUIRE(result.project);
  REQUIRE(result.project->panels.size() == 1);
  const Panel& panel = result.project->panels[0];
  CHECK(panel.width_m.value == Approx(4.0));
  CHECK(panel.thickness_m.value == Approx(0.3));
  CHECK(panel.height_m.value == Approx(3.0));  // from 2 m to 3 m
  CHECK(panel.layers.size() == 2);
  CHECK(panel.parts.empty());
  CHECK(all_of(result.diagnostics).find("the body of the panel is no rectangle of 4 m by 3 m") != std::string::npos);
}

TEST_CASE("holes in the profile of a wall's body are its openings", "[neighbours]") {
  // The profile stands upright: its y axis along the world's z, the extrusion along the world's -y.
  const auto upright = [](const Polygon& hole) {
    return "<IfcExtrudedAreaSolid Depth=\"0.3\"><SweptArea xsi:type=\"IfcArbitraryProfileDefWithVoids\">" +
           polyline("OuterCurve", rectangle(0.0, 0.0, 4.0, 2.5)) + "<InnerCurves>" + polyline("IfcPolyline", hole) +
           "</InnerCurves></SweptArea><Position xsi:type=\"IfcAxis2Placement3D\"><Location Coordinates=\"0. 0.3 "
           "0.\"/><Axis DirectionRatios=\"0. -1. 0.\"/><RefDirection DirectionRatios=\"1. 0. 0.\"/></Position>"
           "<ExtrudedDirection DirectionRatios=\"0. 0. 1.\"/></IfcExtrudedAreaSolid>";
  };
  // A hole across the outline is no hole.
  const std::string crossing = export_text(layered_wall(body_of(upright(rectangle(0.5, -0.5, 1.5, 2.1)))));
  CHECK_FALSE(read_export(crossing, "small.ifcxml", with_layer_order()).project);
  const std::string sound = upright(rectangle(2.0, 0.9, 3.2, 2.1));
  const Project project = project_of(export_text(layered_wall(body_of(sound))), with_layer_order());
  REQUIRE(project.panels.size() == 1);
  const Panel& panel = project.panels[0];
  CHECK(panel.gross_area_m2() == Approx(10.0));
  REQUIRE(panel.openings.size() == 1);
  // Layers run from inside to outside along +y, so x stays as the export has it.
  CHECK(panel.openings[0].area_m2() == Approx(1.2 * 1.2));
  CHECK(panel.openings[0].z_min_m == Approx(0.9));
}

TEST_CASE("a round opening is told to be taken as a rectangle", "[neighbours]") {
  const std::string porthole =
      "<IfcExtrudedAreaSolid Depth=\"0.6\"><SweptArea xsi:type=\"IfcCircleProfileDef\" Radius=\"0.3\"/><Position "
      "xsi:type=\"IfcAxis2Placement3D\"><Location Coordinates=\"2. 0.5 1.5\"/><Axis DirectionRatios=\"0. -1. "
      "0.\"/><RefDirection DirectionRatios=\"1. 0. 0.\"/></Position><ExtrudedDirection DirectionRatios=\"0. 0. "
      "1.\"/></IfcExtrudedAreaSolid>";
  const std::string opening = with_opening("Porthole", porthole);
  const std::string text = export_text(layered_wall(body_of(extrusion(rectangle_profile(4.0, 0.3), 2.5)), opening));
  const IntakeResult result = read_export(text, "small.ifcxml", with_layer_order());
  INFO(all_of(result.diagnostics));
  REQUIRE(result.project);
  REQUIRE(result.project->panels[0].openings.size() == 1);
  CHECK(result.project->panels[0].openings[0].area_m2() == Approx(0.36).epsilon(1e-3));
  CHECK(all_of(result.diagnostics).find("the opening is no rectangle in its panel") != std::string::npos);
  CHECK(all_of(result.diagnostics).find("the body of the panel is no rectangle") == std::string::npos);
}

}  // namespace panel_dossier
