// Conversion to the declared unit.
#include <catch2/catch.hpp>

#include "plugins/carbon/declarations/declared_figure.h"

using panel_dossier::carbon::declared_amount;
using panel_dossier::carbon::MaterialAmount;
using panel_dossier::carbon::unit_word;

// EN 15804:2012+A2:2019, 6.3.3: a declared unit is an amount of product in kg, m³, m² of stated thickness, or pieces,
// and carries the conversion to mass. From memory. 10 m² of board 12.5 mm at 800 kg/m³ are 0.125 m³, 100 kg and four
// boards of 2.5 m²; each is the same amount. Exact but for rounding.
TEST_CASE("one amount of board is the same in every declared unit") {
  MaterialAmount board;
  board.mass_kg = 100.0;
  board.volume_m3 = 0.125;
  board.pieces = 4.0;
  CHECK(declared_amount(board, "kg", {}).units.value() == Approx(100.0));
  CHECK(declared_amount(board, "m3", {}).units.value() == Approx(0.125));
  CHECK(declared_amount(board, "m2", {0.0125, {}}).units.value() == Approx(10.0));
  CHECK(declared_amount(board, "piece", {}).units.value() == Approx(4.0));
}

// The same declaration restated for 15 mm instead of 12.5 mm is 1/1.2 of the units, and 1.2 times the value of each.
TEST_CASE("a declaration for another thickness gives the same carbon") {
  MaterialAmount board;
  board.volume_m3 = 0.125;
  const double thin = declared_amount(board, "m2", {0.0125, {}}).units.value() * 3.0;
  const double thick = declared_amount(board, "m2", {0.0150, {}}).units.value() * 3.0 * 1.2;
  CHECK(thin == Approx(thick).epsilon(1e-12));
}

// EN 15804:2012+A2:2019, 6.3.3: the declared density converts between mass and volume. From memory. 10 m² of 12.5 mm at
// 800 kg/m³ again, known by its volume or its mass alone.
TEST_CASE("the declared density stands for the mass or the volume that is not known") {
  MaterialAmount by_volume;
  by_volume.volume_m3 = 0.125;
  CHECK(declared_amount(by_volume, "kg", {{}, 800.0}).units.value() == Approx(100.0));
  MaterialAmount by_mass;
  by_mass.mass_kg = 100.0;
  CHECK(declared_amount(by_mass, "m2", {0.0125, 800.0}).units.value() == Approx(10.0));
}

// SI Brochure, 9th edition 2019, table 8: 1 t = 10³ kg.
TEST_CASE("a tonne is a thousand kilograms") {
  REQUIRE(unit_word("t"));
  CHECK(unit_word("t")->unit == "kg");
  CHECK(unit_word("t")->factor == 1000.0);
  CHECK_FALSE(unit_word("pallet"));
}
