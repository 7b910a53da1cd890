// The three-dimensional corner of oversail panels at a floor.
#include "plugins/thermal/junctions/floor_corner.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>

#include "tests/thermal/junctions/detail_wall.h"

using namespace panel_dossier;
using testing::wall;
using namespace panel_dossier::thermal::conduction;

namespace {

Settings settings_of(double slab_conductivity) {
  return testing::changed("slab_conductivity_w_per_mk", slab_conductivity);
}

}  // namespace

TEST_CASE("What a floor adds to a corner is small beside the corner, and colder than either detail alone") {
  DetailSolver solver;
  const FloorCorner corner = make_floor_corner(DetailKind::floor_joint, wall(), settings_of(2.3));
  REQUIRE(corner.missing.empty());
  const FloorCornerResult result = solve_floor_corner(corner, solver);
  CHECK(result.l_3d_w_per_k > 0.0);
  CHECK(std::abs(result.chi_internal_w_per_k) < 0.1 * result.l_3d_w_per_k);
  CHECK(result.temperature_factor < solver.solve(corner.corner).temperature_factor);
  CHECK(result.temperature_factor < solver.solve(corner.floor).temperature_factor);
  CHECK(result.heat_flow_change <= kHeatFlowChange);
}

TEST_CASE("A floor of concrete passes more heat through the corner than one of timber") {
  DetailSolver solver;
  const auto timber = solve_floor_corner(make_floor_corner(DetailKind::floor_edge, wall(), settings_of(0.13)), solver);
  const auto concrete = solve_floor_corner(make_floor_corner(DetailKind::floor_edge, wall(), settings_of(2.3)), solver);
  CHECK(timber.l_3d_w_per_k < concrete.l_3d_w_per_k);
}

TEST_CASE("The same corner is solved once") {
  DetailSolver solver;
  const FloorCorner corner = make_floor_corner(DetailKind::floor_edge, wall(), settings_of(2.3));
  solve_floor_corner(corner, solver);
  const std::size_t solved = solver.models_solved();
  solve_floor_corner(make_floor_corner(DetailKind::floor_edge, wall(), settings_of(2.3)), solver);
  CHECK(solver.models_solved() == solved);
}

TEST_CASE("A corner names what its details lack") {
  Settings settings = settings_of(2.3);
  DetailBuildUp build_up = wall();
  build_up.edge_stud_m.reset();
  const auto missing = make_floor_corner(DetailKind::floor_edge, build_up, settings).missing;
  REQUIRE(missing.size() == 1);
  CHECK(missing.front() == "no stud or post touches a vertical edge of the panel");
  CHECK_THROWS_AS(make_floor_corner(DetailKind::parapet, build_up, settings), std::invalid_argument);
}
