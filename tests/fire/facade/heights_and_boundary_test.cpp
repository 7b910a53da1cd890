#include "plugins/fire/facade/heights_and_boundary.h"

#include <catch2/catch.hpp>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/properties.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

TEST_CASE("The height of the top storey is the setting, else from storeys and the ground in their datum") {
  Project project = cassette_project();
  project.storeys.front().elevation_m->value = 101.0;
  Settings settings;
  CHECK_FALSE(fire::top_storey_height_m(project, settings));
  settings.set("building.ground_level_m", 100.0);
  CHECK(fire::top_storey_height_m(project, settings)->value == Approx(1.0));
  // The highest one, in whatever order they stand; one without elevation could be higher still.
  for (const double elevation_m : {107.0, 104.0}) {
    project.storeys.push_back(project.storeys.front());
    project.storeys.back().elevation_m->value = elevation_m;
  }
  CHECK(fire::top_storey_height_m(project, settings)->value == Approx(7.0));
  project.storeys.push_back(project.storeys.front());
  project.storeys.back().elevation_m.reset();
  CHECK_FALSE(fire::top_storey_height_m(project, settings));
  settings.set("building.top_storey_height_m", 7.2);
  CHECK(fire::top_storey_height_m(project, settings)->value == 7.2);
}

TEST_CASE("The top of a panel above ground does not depend on where the world's zero lies") {
  Project project = cassette_project();
  Panel& panel = project.panels.front();
  panel.storey = 0;
  Settings settings;
  CHECK_FALSE(fire::panel_top(panel, project, settings));
  settings.set("building.ground_level_m", -0.5);
  CHECK(fire::panel_top(panel, project, settings)->height_m() == Approx(3.5));
  panel.frame.origin.z = 42.0;
  CHECK(fire::panel_top(panel, project, settings)->height_m() == Approx(3.5));
}

TEST_CASE("A panel's own distance to the boundary comes before that of the building") {
  Project project = cassette_project();
  Panel& panel = project.panels.front();
  Settings settings;
  CHECK_FALSE(fire::boundary_distance_m(panel, settings));
  settings.set("building.boundary_distance_m", 6.0);
  CHECK(fire::boundary_distance_m(panel, settings)->value == 6.0);
  panel.properties.add("Panel_FireRequirement", "BoundaryDistance", property_of(0.5));
  CHECK(fire::boundary_distance_m(panel, settings)->value == 0.5);
}
