// Studs over several supports against a general finite-element program that knows no beam theory.
#include <catch2/catch.hpp>
#include <cmath>

#include "plugins/structural/basis/beam_solver.h"
#include "tests/support/finite_element_beam.h"

using namespace panel_dossier::structural;
using panel_dossier::testing::finite_element_deflections_m;
using panel_dossier::testing::FiniteElementBeam;

namespace {

double deflection_at(const BeamResult& result, double place_m) {
  for (const BeamPoint& point : result.points) {
    if (std::abs(point.x_m - place_m) < 1e-6) return point.deflection_m;
  }
  throw std::out_of_range("no point there");
}

}  // namespace

TEST_CASE("FreeFEM gives the deflections of a stud over three supports with a projecting head") {
  // 48 x 200 mm over spans of 3.0 and 3.6 m with 1.0 m above. An isotropic plate with ν = 0.2 has G = E/2.4. Plane
  // stress differs from beam theory by the dents of the supports, which hold single points of the mesh (some load/E:
  // below 1e-6 m), and by local effects of the order of (depth/span)² ≈ 0.4 %; 0.6 % or 20 µm is allowed.
  const FiniteElementBeam plate{7.6, 0.2, 0.048, 11e9, 0.2, 600.0, {0.0, 3.0, 6.6}};
  const std::vector<double> places{1.5, 4.8, 7.6};
  const auto reference = finite_element_deflections_m(plate, places);

  Beam beam;
  beam.length_m = plate.length_m;
  beam.supports_m = plate.supports_m;
  const double area_m2 = plate.width_m * plate.depth_m;
  beam.bending_stiffness_nm2 = plate.modulus_pa * area_m2 * plate.depth_m * plate.depth_m / 12.0;
  beam.shear_stiffness_n = plate.modulus_pa / 2.4 * area_m2 / 1.2;
  const BeamResult own = solve_beam(beam, {{0.0, plate.length_m, plate.line_load_n_per_m}}, {});
  for (std::size_t i = 0; i < places.size(); ++i) {
    INFO("at " << places[i] << " m: own " << deflection_at(own, places[i]) << ", reference " << reference[i]);
    CHECK(deflection_at(own, places[i]) == Approx(reference[i]).epsilon(0.006).margin(20e-6));
  }
}
