// Corrections of the U-value and air layers with openings, against the standard and its earlier edition.
#include <catch2/catch.hpp>

#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance/envelope_correction.h"
#include "plugins/thermal/transmittance/plain_layers.h"

using namespace panel_dossier;
using namespace panel_dossier::thermal;

// EN ISO 6946:2017 annex F, table F.1 (annex D, table D.1 of the 2007 edition). From memory. Read as it stands.
TEST_CASE("air voids have the corrections of the standard") {
  const Tables tables(PANEL_DOSSIER_SOURCE_DIR "/plugins/thermal/data");
  const auto level = [&](const char* row) {
    return tables.air_void_levels.number(row, "correction_w_per_m2k").value().value;
  };
  CHECK(level("0") == 0.0);
  CHECK(level("1") == 0.01);
  CHECK(level("2") == 0.04);
}

// EN ISO 6946:2017, F.2, worked by hand: R_1 = 4, R_tot,h = 5 m²·K/W, level 2: 0.04 · 0.64 = 0.0256. Rounding only.
TEST_CASE("the correction for air voids falls with the square of the insulation's share") {
  CHECK(air_void_correction(0.04, {4.0, 5.0}) == Approx(0.0256).epsilon(1e-12));
}

// EN ISO 6946:1996 annex D gives wall ties as ΔU_f = α · λ_f · n_f · A_f with α = 6 1/m and no share of the insulation.
// The formula of 2017 has 0.8 / d_0 in its place, equal at d_0 = 0.8 / 6 m where the insulation is all there is. From
// memory. Ties of stainless steel (17 W/(m·K)) of 12.5 mm², 2.5 on each m²: 6 · 17 · 2.5 · 12.5e-6 = 0.0031875.
TEST_CASE("at 133 mm of insulation the correction for fasteners is that of the first edition") {
  constexpr double kDepth_m = 0.8 / 6.0;
  CHECK(fastener_correction({17.0, 12.5e-6, 2.5, kDepth_m, kDepth_m}, {1.0, 1.0}) == Approx(0.0031875).epsilon(1e-12));
}

// EN ISO 6946:2017, F.3: a recessed fastener counts with α = 0.8 · d_1 / d_0. From memory.
TEST_CASE("a fastener through half of the insulation has half the correction") {
  const InsulationShare share{4.0, 5.0};
  CHECK(fastener_correction({50.0, 30e-6, 4.0, 0.07, 0.14}, share) ==
        Approx(0.5 * fastener_correction({50.0, 30e-6, 4.0, 0.14, 0.14}, share)).epsilon(1e-12));
}

// EN ISO 6946:2017, F.3: no correction where the fastener conducts less than 1 W/(m·K). From memory.
TEST_CASE("plastic fasteners have no correction") {
  CHECK(fastener_correction({0.99, 12.5e-6, 2.5, 0.1, 0.1}, {1.0, 1.0}) == 0.0);
  CHECK(fastener_correction({1.0, 12.5e-6, 2.5, 0.1, 0.1}, {1.0, 1.0}) > 0.0);
}

// EN ISO 6946:2017, annex F: corrections of less than 3 % of U need not be applied. From memory.
TEST_CASE("corrections may be left out below 3 per cent of U and not above") {
  CHECK(may_be_left_out(0.0059, 0.2));
  CHECK_FALSE(may_be_left_out(0.0061, 0.2));
}

// EN ISO 6946:2017, 6.9.2 to 6.9.4: unventilated up to 500 mm²/m, well ventilated from 1500 mm²/m, and in between
// R_tot = (1500 − A_v)/1000 · R_tot,u + (A_v − 500)/1000 · R_tot,v. From memory.
TEST_CASE("openings between 500 and 1500 mm² per metre make a slightly ventilated air layer") {
  CHECK(ventilated_share(0.0) == 0.0);
  CHECK(ventilated_share(500.0) == 0.0);
  CHECK(ventilated_share(800.0) == Approx(0.3).epsilon(1e-12));
  CHECK(1.0 - ventilated_share(800.0) == Approx((1500.0 - 800.0) / 1000.0).epsilon(1e-12));
  CHECK(ventilated_share(1500.0) == 1.0);
  CHECK(ventilated_share(9000.0) == 1.0);
}
