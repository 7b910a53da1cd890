// Carbon dioxide stored in wood.
#include <catch2/catch.hpp>

#include "plugins/carbon/account/biogenic_storage.h"
#include "plugins/carbon/run_inputs.h"

using namespace panel_dossier::carbon;

namespace {

WoodCarbon constants() {
  const Tables tables(PANEL_DOSSIER_SOURCE_DIR "/plugins/carbon/data");
  const auto value = [&](const char* row) { return tables.biogenic_carbon.number(row, "value").value().value; };
  return {value("carbon_fraction_of_dry_wood"), value("molar_mass_of_carbon_dioxide") / value("molar_mass_of_carbon")};
}

}  // namespace

// Common rule of the trade that follows from the same formula: a tonne of dry wood is 1.83 t CO2. 0.005 is its
// rounding.
TEST_CASE("a tonne of oven-dry wood holds 1.83 tonnes of carbon dioxide") {
  CHECK(stored_carbon_dioxide_kg(constants(), 1000.0, 0.0) / 1000.0 == Approx(1.83).margin(0.005));
}
