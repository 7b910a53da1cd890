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

// EN 16449:2014, formula (1): P_CO2 = 44/12 · cf · ρ_ω · V_ω / (1 + ω/100), cf = 0.5. From memory. 1 m³ of spruce with
// 450 kg/m³ at 12 % moisture: 401.79 kg dry, 200.89 kg carbon, 736.6 kg CO2. The product is exact; 0.05 is the rounding
// of the printed tenth.
TEST_CASE("a cubic metre of spruce at 12 per cent stores what the standard's formula gives") {
  CHECK(stored_carbon_dioxide_kg(constants(), 450.0 * 1.0, 0.12) == Approx(736.6).margin(0.05));
}

// Common rule of the trade that follows from the same formula: a tonne of dry wood is 1.83 t CO2. 0.005 is its
// rounding.
TEST_CASE("a tonne of oven-dry wood holds 1.83 tonnes of carbon dioxide") {
  CHECK(stored_carbon_dioxide_kg(constants(), 1000.0, 0.0) / 1000.0 == Approx(1.83).margin(0.005));
}

// The same dry wood holds the same carbon whatever water is in it.
TEST_CASE("water in the wood stores nothing") {
  CHECK(stored_carbon_dioxide_kg(constants(), 100.0 * 1.18, 0.18) ==
        Approx(stored_carbon_dioxide_kg(constants(), 100.0, 0.0)).epsilon(1e-12));
}
