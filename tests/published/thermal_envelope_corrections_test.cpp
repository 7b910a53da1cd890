// Corrections of the U-value against the standard and its earlier edition.
#include <catch2/catch.hpp>

#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance/envelope_correction.h"

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

// EN ISO 6946:1996 annex D gives wall ties as ΔU_f = α · λ_f · n_f · A_f with α = 6 1/m and no share of the insulation.
// The formula of 2017 has 0.8 / d_0 in its place, equal at d_0 = 0.8 / 6 m where the insulation is all there is. From
// memory. Ties of stainless steel (17 W/(m·K)) of 12.5 mm², 2.5 on each m²: 6 · 17 · 2.5 · 12.5e-6 = 0.0031875.
TEST_CASE("at 133 mm of insulation the correction for fasteners is that of the first edition") {
  constexpr double kDepth_m = 0.8 / 6.0;
  CHECK(fastener_correction({17.0, 12.5e-6, 2.5, kDepth_m, kDepth_m}, {1.0, 1.0}) == Approx(0.0031875).epsilon(1e-12));
}
