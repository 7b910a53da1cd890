// Conversion of conductivities and tabulated design values.
#include <catch2/catch.hpp>

#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance/design_values.h"

using namespace panel_dossier;
using namespace panel_dossier::thermal;

// EN ISO 10456:2007, 7.2 with f_T of table A.1 for mineral wool boards of 0.036 W/(m·K), 0.0048 1/K (from memory),
// worked by hand: 30 K warmer is exp(0.144) = 1.15488, so 0.036 becomes 0.041576. Tolerance: the last digit by hand.
TEST_CASE("a mineral wool board conducts 15 per cent more at 40 °C than at 10 °C") {
  const ConversionCoefficients board{0.0048, 4.0, 0.15};
  CHECK(temperature_factor(board, {10.0, 0.0}, {40.0, 0.0}) == Approx(1.15488).margin(0.000005));
  CHECK(converted_conductivity(0.036, board, {10.0, 0.0}, {40.0, 0.0}, 1.0) == Approx(0.041576).margin(0.0000005));
}

// EN ISO 10456:2007, 7.3 with f_ψ = 4 of table 4 for mineral wool (from memory), by hand: exp(4 · 0.05) = 1.22140.
TEST_CASE("five per cent of moisture by volume raises the conductivity of mineral wool by 22 per cent") {
  CHECK(moisture_factor({0.0, 4.0, 0.15}, {10.0, 0.0}, {10.0, 0.05}) == Approx(1.22140).margin(0.000005));
}

// EN ISO 10456:2007, 7.1, all three factors at once (f_T and f_ψ as above, from memory; F_a = 1.1 chosen), by hand:
// exp(0.0048 · 10) = 1.049171, exp(4 · 0.02) = 1.083287, so 0.036 · 1.049171 · 1.083287 · 1.1 = 0.045008.
TEST_CASE("temperature, moisture and ageing multiply") {
  const ConversionCoefficients board{0.0048, 4.0, 0.15};
  CHECK(converted_conductivity(0.036, board, {10.0, 0.0}, {20.0, 0.02}, 1.1) == Approx(0.045008).margin(0.000001));
}

// Closed form: the factors are exponentials of differences, so there and back is the identity.
TEST_CASE("a conversion there and back gives the first value") {
  const ConversionCoefficients wool{0.0056, 4.0, 0.15};
  const MaterialConditions dry{10.0, 0.0};
  const MaterialConditions damp{23.0, 0.02};
  const double there = converted_conductivity(0.040, wool, dry, damp, 1.0);
  CHECK(converted_conductivity(there, wool, damp, dry, 1.0) == Approx(0.040).epsilon(1e-12));
}

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
