// What a panel meets at its edges, and which of its timber belongs there.
#include "plugins/thermal/junctions/junctions.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "core/api/testing/properties.h"
#include "plugins/thermal/junctions/junction_heat.h"
#include "tests/thermal/window_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using thermal::Edge;
using thermal::Meeting;
using thermal::Side;
using thermal::conduction::DetailKind;

namespace {

/// A panel 3.0 m by 3.3 m and 0.3 m thick on storey `storey`, its inner lower corner at `origin` and its outside to the
/// right-handed side of `along`: seen from inside, the panel runs to the right.
Panel placed(const std::string& mark, const std::string& arrangement, std::size_t storey, Vec3 origin, Vec3 along) {
  Panel panel = plain_panel(3.0, 3.3);
  panel.mark = mark;
  panel.thickness_m.value = 0.3;
  panel.storey = storey;
  panel.frame.origin = origin;
  panel.frame.x_axis = along;
  panel.frame.z_axis = {0.0, 0.0, 1.0};
  panel.frame.y_axis = cross(panel.frame.z_axis, along);
  put(panel.properties, "Panel_Identity", "Arrangement", arrangement);
  return panel;
}

Project three_storeys() {
  Project project;
  for (int i = 0; i < 3; ++i) {
    Storey storey;
    storey.name = std::to_string(i);
    storey.elevation_m = Sourced<double>{3.6 * i, origin_of("IfcBuildingStorey")};
    project.storeys.push_back(std::move(storey));
  }
  return project;
}

const thermal::Junction& at(const thermal::Junctions& junctions, Edge edge) {
  const auto found = std::find_if(junctions.lines.begin(), junctions.lines.end(),
                                  [&](const thermal::Junction& junction) { return junction.edge == edge; });
  REQUIRE(found != junctions.lines.end());
  return *found;
}

const Vec3 kEast{1.0, 0.0, 0.0};
const Vec3 kNorth{0.0, 1.0, 0.0};
const Vec3 kSouth{0.0, -1.0, 0.0};

}  // namespace

TEST_CASE("an infill panel meets slabs, the ground or the roof by its storey") {
  Project project = three_storeys();
  for (std::size_t storey = 0; storey < 3; ++storey) {
    project.panels.push_back(placed("P", "INFILL", storey, {0.0, 0.0, 3.6 * static_cast<double>(storey)}, kEast));
  }
  const auto low = thermal::find_junctions(project.panels[0], project);
  const auto middle = thermal::find_junctions(project.panels[1], project);
  const auto top = thermal::find_junctions(project.panels[2], project);
  CHECK(at(low, Edge::sole).left_to_ground);
  CHECK(at(low, Edge::head).kind == DetailKind::head_under_slab);
  CHECK(at(middle, Edge::sole).kind == DetailKind::sole_on_slab);
  CHECK(at(top, Edge::head).kind == DetailKind::head_under_roof);
  CHECK(at(middle, Edge::left).kind == DetailKind::edge_at_column);
  CHECK(at(middle, Edge::head).length_m == 3.0);
  CHECK(at(middle, Edge::left).length_m == 3.3);
}

TEST_CASE("a storey without elevation leaves head and sole unknown") {
  Project project = three_storeys();
  project.storeys[1].elevation_m.reset();
  project.panels.push_back(placed("P", "INFILL", 1, {}, kEast));
  const auto junctions = thermal::find_junctions(project.panels[0], project);
  CHECK(at(junctions, Edge::head).unknown == "its storey has no elevation, so what the head meets is not known");
}

TEST_CASE("panels side by side share their joint") {
  Project project = three_storeys();
  project.panels.push_back(placed("A", "INFILL", 1, {0.0, 0.0, 3.6}, kEast));
  project.panels.push_back(placed("B", "INFILL", 1, {3.01, 0.0, 3.6}, kEast));
  const auto junctions = thermal::find_junctions(project.panels[0], project);
  CHECK(at(junctions, Edge::right).kind == DetailKind::panel_joint);
  CHECK(at(junctions, Edge::right).share == 0.5);
  CHECK(thermal::neighbour_at(project.panels[1], Side::left, project).panel == &project.panels[0]);
  // Too far for a joint, and on another storey.
  project.panels[1].frame.origin.x = 3.2;
  CHECK(thermal::neighbour_at(project.panels[0], Side::right, project).meeting == Meeting::nothing);
  project.panels[1].frame.origin = {3.01, 0.0, 7.2};
  CHECK(thermal::neighbour_at(project.panels[0], Side::right, project).meeting == Meeting::nothing);
}

TEST_CASE("corners are external or internal by the way the walls face") {
  // A wall that runs east has its outside to the north. One that runs south from its right end faces east: the corner
  // points outwards. One that runs north from there faces west, towards the outside of the first: it points inwards.
  Project project = three_storeys();
  project.panels.push_back(placed("A", "OVERSAIL", 1, {0.0, 0.0, 3.6}, kEast));
  project.panels.push_back(placed("B", "OVERSAIL", 1, {3.0, 0.0, 3.6}, kSouth));
  CHECK(thermal::neighbour_at(project.panels[0], Side::right, project).meeting == Meeting::external_corner);
  CHECK(at(thermal::find_junctions(project.panels[0], project), Edge::right).kind == DetailKind::external_corner);
  project.panels[1] = placed("B", "OVERSAIL", 1, {3.0, 0.0, 3.6}, kNorth);
  CHECK(thermal::neighbour_at(project.panels[0], Side::right, project).meeting == Meeting::internal_corner);
}

TEST_CASE("infill panels that leave room at a corner stand against its column") {
  Project project = three_storeys();
  project.panels.push_back(placed("A", "INFILL", 1, {0.0, 0.0, 3.6}, kEast));
  project.panels.push_back(placed("B", "INFILL", 1, {3.3, -0.4, 3.6}, kSouth));
  CHECK(at(thermal::find_junctions(project.panels[0], project), Edge::right).kind == DetailKind::corner_column);
}

TEST_CASE("an oversail panel meets those above and below in front of the floors and passes the rest") {
  Project project = three_storeys();
  project.panels.push_back(placed("A", "OVERSAIL", 0, {0.0, 0.0, 0.0}, kEast));
  project.panels.push_back(placed("B", "OVERSAIL", 1, {0.0, 0.0, 3.6}, kEast));
  project.panels[0].height_m.value = 3.59;
  const auto low = thermal::find_junctions(project.panels[0], project);
  CHECK(at(low, Edge::head).kind == DetailKind::floor_joint);
  CHECK(at(low, Edge::head).share == 0.5);
  CHECK(at(thermal::find_junctions(project.panels[1], project), Edge::sole).share == 0.5);
  CHECK(at(low, Edge::left).unknown.find("Panel_Junction.LeftTransmittance") != std::string::npos);
  // Nothing stands on the second panel, so all of its head's joint is its own.
  CHECK(at(thermal::find_junctions(project.panels[1], project), Edge::head).share == 1.0);

  Project tall = three_storeys();
  tall.panels.push_back(placed("T", "OVERSAIL", 0, {}, kEast));
  tall.panels[0].height_m.value = 10.8;
  const auto junctions = thermal::find_junctions(tall.panels[0], tall);
  CHECK(at(junctions, Edge::head).kind == DetailKind::parapet);
  CHECK(at(junctions, Edge::floor).kind == DetailKind::floor_edge);
  CHECK(at(junctions, Edge::floor).length_m == 6.0);
}

TEST_CASE("a floor that meets a corner of oversail panels is a point of each panel there") {
  Project project = three_storeys();
  project.panels.push_back(placed("A", "OVERSAIL", 0, {0.0, 0.0, 0.0}, kEast));
  project.panels.push_back(placed("B", "OVERSAIL", 0, {3.0, 0.0, 0.0}, kSouth));
  project.panels[0].height_m.value = 3.59;
  project.panels[1].height_m.value = 3.59;
  const auto low = thermal::find_junctions(project.panels[0], project);
  REQUIRE(low.points.size() == 1);
  CHECK(low.points[0].floor == DetailKind::floor_joint);
  CHECK(low.points[0].share == 0.25);
  project.panels[0].height_m.value = 10.8;
  const auto tall = thermal::find_junctions(project.panels[0], project);
  REQUIRE(tall.points.size() == 2);
  CHECK(tall.points[0].floor == DetailKind::floor_edge);
  CHECK(tall.points[0].share == 0.5);
}

TEST_CASE("an edge between two floors, or at a panel of another arrangement, is not guessed") {
  Project project = three_storeys();
  project.panels.push_back(placed("A", "INFILL", 0, {0.0, 0.0, 0.0}, kEast));
  project.panels.push_back(placed("B", "INFILL", 0, {3.01, 0.0, 1.2}, kEast));
  project.panels[0].height_m.value = 0.9;
  project.panels[1].height_m.value = 0.9;
  CHECK(at(thermal::find_junctions(project.panels[0], project), Edge::head).unknown.find("between two floors") !=
        std::string::npos);
  CHECK(at(thermal::find_junctions(project.panels[1], project), Edge::sole).unknown.find("Panel_Junction.Sole") !=
        std::string::npos);
  Project mixed = three_storeys();
  mixed.panels.push_back(placed("A", "INFILL", 1, {0.0, 0.0, 3.6}, kEast));
  mixed.panels.push_back(placed("B", "OVERSAIL", 1, {3.3, -0.3, 3.6}, kSouth));
  CHECK(at(thermal::find_junctions(mixed.panels[0], mixed), Edge::right).unknown.find("'B' of another arrangement") !=
        std::string::npos);
}

TEST_CASE("what the export states goes before what is worked out, and unknown words are named") {
  Project project = three_storeys();
  project.panels.push_back(placed("A", "INFILL", 1, {0.0, 0.0, 3.6}, kEast));
  Properties& properties = project.panels[0].properties;
  put(properties, "Panel_Junction", "Head", std::string("PARAPET"));
  put(properties, "Panel_Junction", "LeftTransmittance", 0.08);
  put(properties, "Panel_Junction", "Right", std::string("WALL"));
  const auto junctions = thermal::find_junctions(project.panels[0], project);
  CHECK(at(junctions, Edge::head).kind == DetailKind::parapet);
  CHECK(at(junctions, Edge::left).declared_psi->value == 0.08);
  CHECK_FALSE(at(junctions, Edge::left).kind.has_value());
  CHECK(at(junctions, Edge::right).unknown == "Panel_Junction.Right 'WALL' names no junction detail");
}

TEST_CASE("an upper panel that is said to stand on the ground is not believed") {
  Project project = three_storeys();
  project.panels.push_back(placed("A", "INFILL", 1, {0.0, 0.0, 3.6}, kEast));
  project.panels.push_back(placed("B", "INFILL", 0, {9.0, 0.0, 0.0}, kEast));
  for (Panel& panel : project.panels) put(panel.properties, "Panel_Junction", "Sole", std::string("GROUND"));
  CHECK(at(thermal::find_junctions(project.panels[0], project), Edge::sole).unknown.find("is not the lowest") !=
        std::string::npos);
  CHECK(at(thermal::find_junctions(project.panels[1], project), Edge::sole).left_to_ground);
}

TEST_CASE("a door on the floor shortens the sole and needs its threshold") {
  Project project = three_storeys();
  project.panels.push_back(placed("A", "INFILL", 1, {0.0, 0.0, 3.6}, kEast));
  add_window(project.panels[0], 1.0, 2.0, 0.0, 2.1, 1.2);
  const auto upper = thermal::find_junctions(project.panels[0], project);
  CHECK(at(upper, Edge::sole).length_m == 2.0);
  CHECK(std::any_of(upper.lines.begin(), upper.lines.end(), [](const thermal::Junction& junction) {
    return junction.where == "threshold of doors" && !junction.unknown.empty();
  }));
  CHECK(at(upper, Edge::opening_jambs).length_m == 4.2);
  CHECK(std::none_of(upper.lines.begin(), upper.lines.end(),
                     [](const thermal::Junction& junction) { return junction.edge == Edge::opening_sill; }));
}

TEST_CASE("timber of a junction is cut away along the junction only") {
  const HeatedPanel model = panel_with_window();
  const Panel& panel = model.project.panels.front();
  thermal::conduction::DetailBuildUp timber;
  timber.edge_stud_m = 0.045;
  timber.opening_head_m = 0.145;
  timber.opening_sill_m = 0.045;
  timber.opening_jamb_m = 0.045;
  thermal::Junctions junctions;
  junctions.lines.resize(2);
  junctions.lines[0].edge = Edge::left;
  junctions.lines[0].kind = DetailKind::panel_joint;
  junctions.lines[1].edge = Edge::right;
  junctions.lines[1].left_to_ground = true;
  const Panel rest = thermal::without_junction_timber(panel, junctions, timber);
  const auto length_of = [&](const std::string& name) {
    double length = 0.0;
    for (const Part& part : rest.parts) {
      if (part.name == name) length += part.bounds->size().z;
    }
    return length;
  };
  CHECK(length_of("Stud 1") == 0.0);
  CHECK(length_of("Stud 5") == Approx(2.7));
  // Beside the window, 1 m of the second and third stud belongs to the jambs.
  CHECK(length_of("Stud 2") == Approx(1.7));
  CHECK(length_of("Stud 3") == Approx(1.7));
  CHECK(length_of("Stud 4") == Approx(2.7));
  CHECK(length_of("Lintel") == 0.0);
  CHECK(length_of("Sill") == 0.0);
}
