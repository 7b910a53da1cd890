// A real panel detail solved by FreeFEM, a general finite-element program (F. Hecht, New development in FreeFem++,
// J. Numer. Math. 20, 2012), on the same mesh: each cell cut into two linear triangles.
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>

#include "plugins/thermal/conduction/solve.h"
#include "tests/bench/finite_element_reference.h"
#include "tests/bench/panel_joint_model.h"

using namespace panel_dossier;
using namespace panel_dossier::thermal::conduction;

TEST_CASE("FreeFEM gives the thermal coupling coefficient and temperatures of a panel joint") {
  REQUIRE(bench::finite_element_program_is_there());  // bash .ci/install --tests
  const Model model = bench::panel_joint();
  const Grid grid = make_grid(model, {0.002, 1.2, 0.02});
  const Solution own = solve_on(model, grid, 1e-10);
  const bench::FiniteElementResult reference = bench::solve_by_finite_elements(own.field.network());
  INFO("own " << own.coupling_w_per_k[0][1] << ", reference " << reference.heat_flow_w);
  // Both methods are of second order, so on cells of 2 to 20 mm each is within some 0.1 % of the exact flow; the
  // standard's own rule for a sufficient mesh is 1 %.
  CHECK(own.coupling_w_per_k[0][1] == Approx(reference.heat_flow_w).epsilon(0.002));
  // Temperatures per kelvin of difference at the coldest place inside: 0.005 is the standard's limit for f_Rsi.
  CHECK(own.surfaces[0]->lowest_c == Approx(reference.lowest_inside_c).margin(0.005));
}
