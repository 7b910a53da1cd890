// Masses, loads, packing and site output against figures from outside the project.
#include <catch2/catch.hpp>
#include <utility>
#include <vector>

#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/bar_packing.h"
#include "tests/quantities/cassette.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

std::vector<Micrometres> repeated(const std::vector<std::pair<Micrometres, int>>& lengths) {
  std::vector<Micrometres> all;
  for (const auto& [length, count] : lengths) all.insert(all.end(), static_cast<std::size_t>(count), length);
  return all;
}

}  // namespace

// A common practice figure without source: 825 m² of panels stand after 40 hours of three joiners with a crane
// operative and a slinger, so 20.625 m²/h.
TEST_CASE("825 m² take one crew 40 hours") {
  Settings practice;
  practice.set("quantities.crew_area_rate_m2_per_h", 825.0 / 40.0);
  Panel face = cassette("P1");
  face.width_m.value = 33.0;
  face.height_m.value = 25.0;
  CHECK(std::get<double>(erection_time(face, practice).value) == 40.0);
}

// Standard acceleration of free fall 9.80665 m/s²: ISO 80000-3:2019, item 3-10.2 (from memory); 3rd CGPM, 1901.
TEST_CASE("a tonne weighs 9.80665 kN") {
  Panel panel = cassette("P1");
  panel.parts = {screws("ballast", 1, 1000.0)};
  CHECK(std::get<double>(loads(panel, project_of({panel})).value) == 9.80665);
}

// Mean densities of EN 338:2016 table 1 (from memory): C24 420 kg/m³. A solid block of 0.3 m³ therefore weighs 126 kg.
TEST_CASE("a block of C24 has the mass of its mean density") {
  Panel panel = cassette("P1");
  panel.parts = {box(PartKind::post, "block", 0, {0.0, 0.0, 0.0}, {0.5, 0.3, 2.0})};
  CHECK(std::get<double>(mass(panel, project_of({panel})).value) == 126.0);
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

// Two bodies balance at (m1·x1 + m2·x2)/(m1 + m2): law of the lever, closed form. Timber of 420 and board of 650 kg/m³
// of equal volume, 1 m apart, balance at 650/1070 of the distance.
TEST_CASE("a composite of two materials balances by the law of the lever") {
  Panel panel = cassette("P1");
  panel.parts = {box(PartKind::post, "timber", 0, {0.0, 0.0, 0.0}, {0.2, 0.1, 1.0}),
                 box(PartKind::sheet, "board", 1, {1.0, 0.0, 0.0}, {0.2, 0.1, 1.0})};
  const Finding found = centre_of_gravity(panel, project_of({panel}));
  CHECK(step(found, "m") == 21.4);
  // Centres are given to the micrometre.
  CHECK(step(found, "x_G") == Approx(0.1 + 650.0 / 1070.0).margin(5e-7).epsilon(0));
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

// Triplets after Falkenauer, A hybrid grouping genetic algorithm for bin packing, 1996 (from memory): three pieces fill
// each bar without waste, so the optimum is a third of the pieces by construction.
TEST_CASE("the bound is exact where triplets fill every bar") {
  std::vector<Micrometres> lengths;
  for (Micrometres i = 0; i < 40; ++i) {
    const Micrometres first = 380 + i;
    const Micrometres second = 260 + i;
    lengths.insert(lengths.end(), {first, second, 1000 - first - second});
  }
  CHECK(fewest_bars(lengths, 1000, 0) == 40);
  // By hand: first-fit decreasing pairs the forty pieces over 379, which leaves less than any other piece, then puts
  // three of the other eighty in each bar: 20 and 27.
  CHECK(pack_bars(lengths, {1000}, 0).size() == 47);
}

// n pieces just over half a bar need n bars, while total length
// over bar length says about n/2. Martello and Toth, Knapsack Problems, 1990, 8.3 (from memory).
TEST_CASE("pieces over half a bar each need a bar of their own") {
  CHECK(fewest_bars(repeated({{501, 20}}), 1000, 0) == 20);
}
