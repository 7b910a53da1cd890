// Constants of biogenic carbon.
#include <catch2/catch.hpp>

#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

// IUPAC, Standard atomic weights 2021, abridged: C 12.011, O 15.999, so CO2 weighs 44.009 / 12.011 = 3.6641 for each
// weight of carbon; EN 16449:2014 rounds to 44/12 = 3.6667. From memory. 0.1 % covers that rounding (0.07 %).
TEST_CASE("44/12 is the ratio of the molar masses of carbon dioxide and carbon") {
  const auto value = [](const char* row) { return carbon_tables().biogenic_carbon.number(row, "value").value().value; };
  CHECK(value("molar_mass_of_carbon_dioxide") / value("molar_mass_of_carbon") == Approx(44.009 / 12.011).epsilon(1e-3));
}
