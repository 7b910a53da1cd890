#include "core/dossier/parts/panel/neighbours.h"

#include <catch2/catch.hpp>

#include "tests/dossier/synthetic_project.h"

using namespace panel_dossier;

namespace {

/// A panel that looks to the south: seen from inside, west is to its right.
Panel panel_at(double x_m, double z_m, double width_m = 2.0, double height_m = 3.0) {
  Panel panel;
  panel.outside_known = true;
  panel.frame = {{x_m, 0.0, z_m}, {-1.0, 0.0, 0.0}, {0.0, -1.0, 0.0}, {0.0, 0.0, 1.0}};
  panel.width_m.value = width_m;
  panel.height_m.value = height_m;
  panel.thickness_m.value = 0.3;
  return panel;
}

PanelNeighbours of_first(std::vector<Panel> panels) {
  Project project;
  project.panels = std::move(panels);
  return neighbours_of_panels(project).at(0);
}

}  // namespace

TEST_CASE("Neighbours of a panel are told as seen from inside, over a floor too") {
  const PanelNeighbours found =
      of_first({panel_at(0.0, 3.3), panel_at(2.02, 3.3), panel_at(-2.02, 3.3), panel_at(0.0, 6.6), panel_at(0.0, 0.0)});
  CHECK(found.left == std::size_t{1});
  CHECK(found.right == std::size_t{2});
  CHECK(found.above == std::size_t{3});
  CHECK(found.below == std::size_t{4});
}

TEST_CASE("What is too far, in another plane, round the corner or beside too little of the edge is no neighbour") {
  CHECK_FALSE(of_first({panel_at(0.0, 0.0), panel_at(2.2, 0.0)}).left);
  CHECK_FALSE(of_first({panel_at(0.0, 0.0), panel_at(0.0, 3.7)}).above);
  Panel behind = panel_at(2.0, 0.0);
  behind.frame.origin.y = 0.4;
  CHECK_FALSE(of_first({panel_at(0.0, 0.0), behind}).left);
  Panel round = panel_at(2.0, 0.0);
  round.frame.x_axis = {0.0, 1.0, 0.0};
  round.frame.y_axis = {-1.0, 0.0, 0.0};
  CHECK_FALSE(of_first({panel_at(0.0, 0.0), round}).left);
  CHECK_FALSE(of_first({panel_at(0.0, 0.0), panel_at(2.0, 1.6)}).left);
  CHECK(of_first({panel_at(0.0, 0.0), panel_at(2.0, 1.4)}).left);
  Panel unknown = panel_at(2.0, 0.0);
  unknown.outside_known = false;
  CHECK_FALSE(of_first({panel_at(0.0, 0.0), unknown}).left);
  CHECK_FALSE(of_first({unknown, panel_at(0.0, 0.0)}).right);
}

TEST_CASE("Of two neighbours on one side the nearer is told, and a short panel is found from far along a long one") {
  CHECK(of_first({panel_at(0.0, 0.0), panel_at(2.1, 0.0), panel_at(2.01, 0.0)}).left == std::size_t{2});
  CHECK(of_first({panel_at(0.0, 0.0), panel_at(9.0, 3.3, 11.0)}).above == std::size_t{1});
}
