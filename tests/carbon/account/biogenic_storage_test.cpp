// Carbon dioxide that corresponds to wood, by hand.
#include "plugins/carbon/account/biogenic_storage.h"

#include <catch2/catch.hpp>

#include "tests/carbon/declared_panel.h"

using namespace panel_dossier::carbon;

namespace {

WoodCarbon wood_constants() {
  return wood_carbon(panel_dossier::testing::carbon_tables().biogenic_carbon).value();
}

}  // namespace

// EN 16449:2014, formula (1): P_CO2 = 44/12 · cf · ρ_ω · V_ω / (1 + ω/100), cf = 0.5. From memory. 1 m³ of spruce with
// 450 kg/m³ at 12 % moisture: 401.79 kg dry, 200.89 kg carbon, 736.6 kg CO2. By hand, to the tenth.
TEST_CASE("a cubic metre of spruce at 12 per cent stores what the standard's formula gives") {
  CHECK(stored_carbon_dioxide_kg(wood_constants(), 450.0 * 1.0, 0.12) == Approx(736.6).margin(0.05));
}

// The same dry wood holds the same carbon whatever water is in it.
TEST_CASE("water in the wood stores nothing") {
  CHECK(stored_carbon_dioxide_kg(wood_constants(), 100.0 * 1.18, 0.18) ==
        Approx(stored_carbon_dioxide_kg(wood_constants(), 100.0, 0.0)).epsilon(1e-12));
}
