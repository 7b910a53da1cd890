// Junction details against closed solutions and bounds.
#include <catch2/catch.hpp>

#include "plugins/thermal/junctions/conduction_detail_result.h"

using namespace panel_dossier;
using namespace panel_dossier::thermal::conduction;

namespace {

/// One homogeneous layer without surface resistances.
DetailBuildUp bare_wall(double thickness_m, double conductivity_w_per_mk) {
  DetailBuildUp build_up;
  build_up.layers = {{"wall", thickness_m, conductivity_w_per_mk, Hatch::none, false}};
  build_up.r_si_m2k_per_w = 0.0;
  build_up.r_se_m2k_per_w = 0.0;
  build_up.framing_conductivity_w_per_mk = conductivity_w_per_mk;
  build_up.edge_stud_m = 0.0;
  return build_up;
}

}  // namespace

TEST_CASE("The corner of a homogeneous wall adds 0.559 of λ to its internal lengths") {
  // Two walls of equal thickness meet at a right angle: by conformal mapping the corner square counts as 0.559 squares
  // (P. M. Hall, Resistance calculations for thin film patterns, Thin Solid Films 1, 1968; conductance across the bend
  // is its dual; the handbooks' shape factor for an edge, 0.54, is the same rounded down). From memory.
  DetailSolver solver;
  const double conductivity = 0.8;
  const DetailResult result =
      solver.solve(make_detail(DetailKind::external_corner, bare_wall(0.3, conductivity), Settings()));
  // The solver stops at the standard's 1 % of the whole heat flow of 7.2 λ; at the grid reached the last halving
  // changes less than 0.1 %, which is 0.007 λ.
  REQUIRE(result.heat_flow->heat_flow_change < 0.001);
  CHECK(result.psi_internal_w_per_mk / conductivity == Approx(0.559).margin(0.007));
  CHECK(result.psi_external_w_per_mk / conductivity == Approx(0.559 - 2.0).margin(0.007));
}

TEST_CASE("Inside and outside of a corner change places without changing the coupling") {
  DetailSolver solver;
  const DetailBuildUp wall = bare_wall(0.3, 0.8);
  const DetailResult external = solver.solve(make_detail(DetailKind::external_corner, wall, Settings()));
  const DetailResult internal = solver.solve(make_detail(DetailKind::internal_corner, wall, Settings()));
  // EN ISO 10211:2017: coupling coefficients are symmetric. The linear solver stops at 1e-8.
  CHECK(internal.l_2d_w_per_mk == Approx(external.l_2d_w_per_mk).epsilon(1e-6));
}

TEST_CASE("The coupling of a joint lies between its parallel paths and its isothermal planes") {
  // Adding cuts that no heat crosses lowers a conductance, adding perfectly conducting planes raises it: the bounds
  // behind the upper and lower limit of EN ISO 6946:2017, 6.7.2 (J. C. Maxwell, A Treatise on Electricity and
  // Magnetism, 3rd ed. 1891, §§ 306 to 307).
  DetailBuildUp wall;
  wall.layers = {{"lining", 0.0125, 0.25, Hatch::board, false},
                 {"wool", 0.240, 0.035, Hatch::insulation, true},
                 {"board", 0.015, 0.24, Hatch::board, false}};
  wall.framing_conductivity_w_per_mk = 0.13;
  wall.edge_stud_m = 0.045;
  Settings settings;
  settings.set("thermal.details.joint_width_m", 0.010);
  settings.set("thermal.details.joint_conductivity_w_per_mk", 0.040);
  DetailSolver solver;
  const double l_2d = solver.solve(make_detail(DetailKind::panel_joint, wall, settings)).l_2d_w_per_mk;

  const double boards = 0.0125 / 0.25 + 0.015 / 0.24;
  const double surfaces = 0.13 + 0.04;
  const double parallel = 2.0 * (1.0 - 0.045) / (surfaces + boards + 0.240 / 0.035) +
                          2.0 * 0.045 / (surfaces + boards + 0.240 / 0.13) + 0.010 / (surfaces + 0.2675 / 0.040);
  const double length = 2.010;
  const double lining = (2.0 * 0.25 + 0.010 * 0.040) / 0.0125;
  const double framed = (2.0 * 0.955 * 0.035 + 0.090 * 0.13 + 0.010 * 0.040) / 0.240;
  const double board = (2.0 * 0.24 + 0.010 * 0.040) / 0.015;
  const double planes = 1.0 / (surfaces / length + 1.0 / lining + 1.0 / framed + 1.0 / board);
  CHECK(l_2d > parallel);
  CHECK(l_2d < planes);
}

TEST_CASE("Three walls in a corner have the handbooks' shape factor") {
  // Conduction shape factors of adjoining walls with isothermal surfaces: edge 0.54 · D, corner of three walls 0.15 · L
  // (F. P. Incropera, D. P. DeWitt, Fundamentals of Heat and Mass Transfer, table of conduction shape factors; J. P.
  // Holman, Heat Transfer, table 3-1), from memory.
  constexpr double kThickness_m = 0.3;
  constexpr double kLength_m = 1.2;  // three and four thicknesses of wall give the same to three digits
  constexpr double kConductivity_w_per_mk = 0.8;
  Model model;
  model.two_dimensional = false;
  const Vec3 corner{-kThickness_m, -kThickness_m, -kThickness_m};
  const Vec3 end{kLength_m, kLength_m, kLength_m};
  model.solids = {{{corner, end}, kConductivity_w_per_mk, "wall", Hatch::none}};
  model.environments = {{"inside", 1.0}, {"outside", 0.0}};
  const Vec3 far = corner - Vec3{1.0, 1.0, 1.0};
  model.environment_boxes = {{kInside, {{0.0, 0.0, 0.0}, end}, 0.0},
                             {kOutside, {far, {-kThickness_m, end.y, end.z}}, 0.0},
                             {kOutside, {{-kThickness_m, far.y, far.z}, {end.x, -kThickness_m, end.z}}, 0.0},
                             {kOutside, {{-kThickness_m, -kThickness_m, far.z}, {end.x, end.y, -kThickness_m}}, 0.0}};
  SolveOptions options;
  options.grid = {0.01, 1.3, 0.15};
  const Solution solution = solve(model, options);
  const double shape_m = solution.coupling_w_per_k[kInside][kOutside] / kConductivity_w_per_mk;
  const double handbook_m = 3.0 * kLength_m * kLength_m / kThickness_m + 3.0 * 0.54 * kLength_m + 0.15 * kThickness_m;
  REQUIRE(solution.heat_flow_change < 0.001);
  // The edge of 0.54 is 3.4 % below the exact 0.559 of the plane corner above, 0.4 % of this corner's factor.
  CHECK(shape_m == Approx(handbook_m).epsilon(0.005));
  // Edges alone fall short: the corner itself passes heat.
  CHECK(shape_m > 3.0 * kLength_m * kLength_m / kThickness_m + 3.0 * 0.559 * kLength_m);
}
