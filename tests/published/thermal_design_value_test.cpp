// Tabulated design values.
#include <catch2/catch.hpp>

#include "plugins/thermal/tables.h"

using namespace panel_dossier;
using namespace panel_dossier::thermal;

// EN ISO 10456:2007, table 3. From memory. Read as it stands.
TEST_CASE("materials of the trade have the tabulated design values") {
  const Tables tables(PANEL_DOSSIER_SOURCE_DIR "/plugins/thermal/data");
  const auto value = [&](const char* row, const char* column) {
    return tables.design_values.number(row, column).value().value;
  };
  CHECK(value("timber 500", "conductivity_w_per_mk") == 0.13);
  CHECK(value("timber 500", "mu_dry") == 50.0);
  CHECK(value("timber 500", "mu_wet") == 20.0);
  CHECK(value("OSB 650", "conductivity_w_per_mk") == 0.13);
  CHECK(value("OSB 650", "mu_wet") == 30.0);
  CHECK(value("gypsum plasterboard 900", "conductivity_w_per_mk") == 0.25);
  CHECK(value("steel", "conductivity_w_per_mk") == 50.0);
}
