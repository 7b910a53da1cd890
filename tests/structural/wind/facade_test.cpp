#include "plugins/structural/wind/facade.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>
#include <string>

#include "tests/structural/wind/wind_box.h"

using namespace panel_dossier;
using namespace panel_dossier::structural;
using namespace panel_dossier::testing;

namespace {

const Facade& facade_of(const FacadeLayout& layout, const Project& project, const std::string& mark) {
  const auto index = static_cast<std::size_t>(&panel_marked(project, mark) - project.panels.data());
  return layout.facades.at(layout.facade.at(index).value());
}

}  // namespace

TEST_CASE("Panels on four sides make four façades with the size of the building") {
  const Project project = box_project();
  const FacadeLayout layout = lay_out_facades(project, {});
  REQUIRE(layout.facades.size() == 4);
  const Facade& north = facade_of(layout, project, "N1");
  CHECK(north.panels.size() == 8);
  CHECK(north.extent_m() == Approx(kBoxWidth_m));
  CHECK(north.depth_m == Approx(kBoxDepth_m));
  CHECK(north.rectangular);
  CHECK(north.sides == 4);
  CHECK(facade_of(layout, project, "E1").extent_m() == Approx(kBoxDepth_m));
}

TEST_CASE("Seen from outside the last panel from the left inside is the first") {
  const Project project = box_project();
  const FacadeLayout layout = lay_out_facades(project, {});
  const Facade& north = facade_of(layout, project, "N8");
  CHECK(extent_along(panel_marked(project, "N8"), north.along).from_m - north.from_m == Approx(0.0).margin(1e-9));
  CHECK(extent_along(panel_marked(project, "N1"), north.along).to_m == Approx(north.to_m));
}

TEST_CASE("A façade is named by its bearing from true north") {
  Project project = box_project();
  const FacadeLayout layout = lay_out_facades(project, {});
  CHECK(facade_name(facade_of(layout, project, "E1"), project) == "facing east (bearing 90° from true north)");
  // True north 20° anticlockwise of the y axis: what faces along y looks 20° clockwise of it.
  project.true_north_rad = 20.0 * std::numbers::pi / 180.0;
  CHECK(facade_name(facade_of(layout, project, "N1"), project) == "facing north (bearing 20° from true north)");
  CHECK(facade_name(facade_of(layout, project, "W1"), project) == "facing west (bearing 290° from true north)");
}

TEST_CASE("Each of the eight points of the compass names 45° about itself") {
  Project project = box_project();
  const FacadeLayout layout = lay_out_facades(project, {});
  // What faces along y has the bearing by which true north is turned from it.
  const auto name_at = [&](double bearing_deg) {
    project.true_north_rad = bearing_deg * std::numbers::pi / 180.0;
    return facade_name(facade_of(layout, project, "N1"), project);
  };
  const char* const points[] = {"north", "north-east", "east", "south-east",
                                "south", "south-west", "west", "north-west"};
  for (int i = 0; i < 8; ++i) {
    for (const double off_deg : {-22.0, 0.0, 22.0}) {
      const double bearing_deg = 45.0 * i + off_deg;
      CHECK(name_at(bearing_deg) == "facing " + std::string(points[i]) + " (bearing " +
                                        std::to_string((std::lround(bearing_deg) + 360) % 360) + "° from true north)");
    }
  }
  CHECK(name_at(359.6) == "facing north (bearing 0° from true north)");
}

TEST_CASE("A turned building has the same façades") {
  Project project = box_project();
  const double angle = 0.5;
  const Frame turned{{100.0, 50.0, 0.0},
                     {std::cos(angle), std::sin(angle), 0.0},
                     {-std::sin(angle), std::cos(angle), 0.0},
                     {0.0, 0.0, 1.0}};
  for (Panel& panel : project.panels) panel.frame = turned.to_parent(panel.frame);
  const FacadeLayout layout = lay_out_facades(project, {});
  REQUIRE(layout.facades.size() == 4);
  CHECK(facade_of(layout, project, "N1").extent_m() == Approx(kBoxWidth_m));
  CHECK(facade_of(layout, project, "N1").rectangular);
}

TEST_CASE("Blocks further apart than the setting are buildings of their own") {
  Project project = box_project();
  const Project other = box_project();
  for (Panel panel : other.panels) {
    panel.frame.origin.x += 40.0;
    panel.mark += "-2";
    project.panels.push_back(panel);
  }
  CHECK(facade_of(lay_out_facades(project, {}), project, "N1").extent_m() == Approx(64.0));
  Settings settings;
  settings.set("building.block_gap_m", 10.0);
  const FacadeLayout layout = lay_out_facades(project, settings);
  CHECK(layout.facades.size() == 8);
  CHECK(facade_of(layout, project, "N1-2").extent_m() == Approx(kBoxWidth_m));
}

TEST_CASE("A façade askew to the others makes the block no rectangle") {
  Project project = box_project();
  project.panels.push_back(box_panel("X1", 3.0, {12.0, 6.0, 0.0}, {0.6, 0.8, 0.0}));
  CHECK_FALSE(facade_of(lay_out_facades(project, {}), project, "N1").rectangular);
}

TEST_CASE("A panel that lies flat, has no known outside or no finite place belongs to no façade") {
  Project project = box_project();
  project.panels[0].frame.z_axis = {0.0, 1.0, 0.0};
  project.panels[1].outside_known = false;
  project.panels[2].frame.origin.x = std::numeric_limits<double>::quiet_NaN();
  const FacadeLayout layout = lay_out_facades(project, {});
  for (std::size_t i = 0; i < 3; ++i) CHECK_FALSE(layout.facade[i].has_value());
  CHECK(layout.facade[3].has_value());
}

TEST_CASE("Height above ground takes the setting, else the lowest storey with an elevation") {
  Project project = cassette_project();
  project.storeys.front().elevation_m->value = 3.0;
  project.panels.front().frame.origin.z = 6.6;
  const auto assumed = ground_level(project, {});
  REQUIRE(assumed.has_value());
  CHECK(assumed->assumed);
  CHECK_FALSE(ground_note(*assumed).empty());
  CHECK(height_above_ground(project.panels.front(), *assumed).foot_m == Approx(3.6));
  Settings settings;
  settings.set("building.ground_level_m", 2.5);
  const auto given = ground_level(project, settings);
  CHECK(ground_note(*given).empty());
  CHECK(height_above_ground(project.panels.front(), *given).top_m == Approx(4.1 + 3.0));
  project.storeys.clear();
  CHECK_FALSE(ground_level(project, {}).has_value());
}
