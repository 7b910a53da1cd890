// Loads, centres and packing against figures from outside the project.
#include <catch2/catch.hpp>
#include <vector>

#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/bar_packing.h"
#include "tests/quantities/cassette.h"
#include "tests/quantities/repeated_lengths.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

// Standard acceleration of free fall 9.80665 m/s²: ISO 80000-3:2019, item 3-10.2 (from memory); 3rd CGPM, 1901.
TEST_CASE("a tonne weighs 9.80665 kN") {
  Panel panel = cassette("P1");
  panel.parts = {screws("ballast", 1, 1000.0)};
  CHECK(std::get<double>(loads(panel, project_of({panel})).value) == 9.80665);
}

// L-shaped plate of uniform material: its centre of mass is the centroid of the angle L8×6×1, x = 1.65, y = 2.65.
// AISC Steel Construction Manual, 13th edition, 2005, table 1-7 (from memory); half a unit of the last digit.
TEST_CASE("two legs of an angle balance where the steel manual says") {
  Panel panel = cassette("P1");
  panel.width_m.value = 6.0;
  panel.height_m.value = 8.0;
  panel.parts = {box(PartKind::post, "long leg", 0, {0.0, 0.0, 0.0}, {1.0, 0.1, 8.0}),
                 box(PartKind::rail, "short leg", 0, {1.0, 0.0, 0.0}, {5.0, 0.1, 1.0})};
  const Finding found = centre_of_gravity(panel, project_of({panel}));
  CHECK(step(found, "x_G") == Approx(1.65).margin(0.005).epsilon(0));
  CHECK(step(found, "z_G") == Approx(2.65).margin(0.005).epsilon(0));
  CHECK(std::get<double>(found.value) == Approx(1.65 - 3.0).margin(0.005).epsilon(0));
}

// The instance on which first-fit decreasing needs 11 bins where 9 suffice: 6 of 1/2+ε, 6 of 1/4+2ε, 6 of 1/4+ε and 12
// of 1/4−2ε. Johnson, Demers, Ullman, Garey and Graham, Worst-case performance bounds for simple one-dimensional
// packing algorithms, 1974 (from memory). Nine bins are filled to the brim, so the bound is 9 exactly.
TEST_CASE("first-fit decreasing meets its published worst case and the bound the optimum") {
  const Micrometres e = 10;
  const auto lengths = repeated({{5000 + e, 6}, {2500 + 2 * e, 6}, {2500 + e, 6}, {2500 - 2 * e, 12}});
  CHECK(pack_bars(lengths, {10000}, 0).size() == 11);
  CHECK(fewest_bars(lengths, 10000, 0) == 9);
}
