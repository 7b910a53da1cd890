#include <catch2/catch.hpp>
#include <optional>
#include <string>

#include "core/api/testing/properties.h"
#include "plugins/structural/basis/fall_barrier_check.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using structural::guards_a_drop;

namespace {

/// A panel of three metres on the ground, and a storey of `building` with its floor at this level.
Project with_floor(std::optional<double> elevation_m, const std::string& building) {
  Project project;
  Panel panel;
  panel.building = std::string("A");
  panel.height_m.value = 3.0;
  project.panels.push_back(panel);
  Storey storey;
  storey.building = building;
  if (elevation_m) storey.elevation_m = Sourced<double>{*elevation_m, {}};
  project.storeys.push_back(storey);
  return project;
}

bool guards(const Project& project) {
  return guards_a_drop(project.panels.front(), project, 0.0);
}

}  // namespace

TEST_CASE("A panel guards the drop beside a floor of its own building that it passes") {
  CHECK(guards(with_floor(2.0, "A")));
  CHECK_FALSE(guards(with_floor(2.0, "B")));
  CHECK_FALSE(guards(with_floor(std::nullopt, "A")));
  // Less than the guard above the floor, and less than the drop above ground.
  CHECK_FALSE(guards(with_floor(2.3, "A")));
  CHECK_FALSE(guards(with_floor(0.5, "A")));
}

TEST_CASE("A panel that stands above the drop guards it") {
  Project project = with_floor(std::nullopt, "A");
  project.panels.front().frame.origin.z = 0.61;
  CHECK(guards(project));
  project.panels.front().frame.origin.z = 0.6;
  CHECK_FALSE(guards(project));
}
