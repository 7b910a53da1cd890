// Corrections of the U-value and slightly ventilated air layers on a whole panel.
#include "plugins/thermal/transmittance/envelope_correction.h"

#include <catch2/catch.hpp>
#include <numbers>
#include <string>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/thermal/transmittance/plain_layers.h"
#include "plugins/thermal/transmittance/transmittance.h"
#include "tests/thermal/heated_panel.h"
#include "tests/thermal/tables_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using panel_dossier::thermal::check_transmittance;
using panel_dossier::thermal::TransmittanceResult;

namespace {

TransmittanceResult corrected(const HeatedPanel& model) {
  return check_transmittance(model.project.panels.front(), model.project, model.settings, thermal_tables());
}

constexpr double kWool = 0.140 / 0.035;
constexpr double kPlainTotal = 0.13 + 0.0125 / 0.25 + kWool + 0.012 / 0.13 + 0.04;
constexpr double kShareSquared = (kWool / kPlainTotal) * (kWool / kPlainTotal);

/// Screws of 6 mm that cross the wool from face to face.
Part& add_screws(HeatedPanel& model, int count, double depth_m) {
  const std::size_t steel = add_material(model.project, "steel", "steel", 7800.0, 50.0);
  Part screws;
  screws.name = "Long screws";
  screws.kind = PartKind::fastener;
  screws.material = steel;
  screws.count = count;
  put(screws.properties, "Panel_Fastener", "Diameter", 0.006);
  put(screws.properties, "Panel_Fastener", "DepthInInsulation", depth_m);
  model.panel().parts.push_back(screws);
  return model.panel().parts.back();
}

}  // namespace

TEST_CASE("air voids of level 2 add to U in the share of the insulation squared") {
  HeatedPanel model;
  const double before = number_of(corrected(model).u_value);
  model.settings.set("thermal.air_void_level", 2.0);
  CHECK(number_of(corrected(model).u_value) == Approx(before + 0.04 * kShareSquared).epsilon(1e-9));
}

TEST_CASE("a correction under 3 per cent of U is left out and that is said") {
  HeatedPanel model;
  model.project.materials[model.wool].properties = {};
  put(model.project.materials[model.wool].properties, "Pset_MaterialThermal", "ThermalConductivity", 0.05);
  const double before = number_of(corrected(model).u_value);
  model.settings.set("thermal.air_void_level", 1.0);
  const auto result = corrected(model);
  const double share = 2.8 / (kPlainTotal - kWool + 2.8);
  REQUIRE(0.01 * share * share / before < 0.03);
  CHECK(number_of(result.u_value) == before);
  CHECK(step_of(result.u_value, "ΔU") == Approx(0.01 * share * share));
}

TEST_CASE("screws through the insulation add to U and screws that end in timber do not") {
  HeatedPanel model;
  const double before = number_of(corrected(model).u_value);
  add_screws(model, 40, 0.0);
  CHECK(number_of(corrected(model).u_value) == before);

  HeatedPanel crossed;
  add_screws(crossed, 40, 0.140);
  const double section_m2 = std::numbers::pi * 0.003 * 0.003;
  const double expected = 0.8 / 0.140 * 50.0 * section_m2 * (40.0 / 6.48) * kShareSquared;
  CHECK(number_of(corrected(crossed).u_value) == Approx(before + expected).epsilon(1e-9));
}

TEST_CASE("heat that timber parts split is corrected with the whole insulation layer") {
  HeatedPanel model;
  add_part(model.panel(), PartKind::blocking, "Flat rail", model.timber, {{0.1, 0.0125, 1.0}, {0.5, 0.0525, 1.1}});
  model.settings.set("thermal.air_void_level", 2.0);
  CHECK(step_of(corrected(model).u_value, "ΔU_g") == Approx(0.04 * kShareSquared).epsilon(1e-9));
}

TEST_CASE("the resistance stays without corrections") {
  HeatedPanel model;
  const double before = number_of(corrected(model).r_value);
  model.settings.set("thermal.air_void_level", 2.0);
  CHECK(number_of(corrected(model).r_value) == before);
}

TEST_CASE("what a correction lacks is named and leaves no U-value") {
  struct Case {
    const char* label;
    void (*spoil)(HeatedPanel&);
    const char* reason;
  };
  const Case cases[] = {
      {"level 3", [](HeatedPanel& m) { m.settings.set("thermal.air_void_level", 3.0); },
       "setting 'thermal.air_void_level' must be 0, 1 or 2 and is 3"},
      {"level 0.5", [](HeatedPanel& m) { m.settings.set("thermal.air_void_level", 0.5); },
       "setting 'thermal.air_void_level' must be 0, 1 or 2 and is 0.50"},
      {"level in words", [](HeatedPanel& m) { m.settings.set("thermal.air_void_level", std::string("none")); },
       "setting 'thermal.air_void_level' is missing (0, 1 or 2)"},
      {"depth unknown", [](HeatedPanel& m) { add_screws(m, 4, 0.1).properties = {}; },
       "fastener 'Long screws' has no Panel_Fastener.DepthInInsulation (or setting "
       "thermal.fasteners_of_unknown_depth)"},
      {"too deep", [](HeatedPanel& m) { add_screws(m, 4, 0.2); },
       "Panel_Fastener.DepthInInsulation of 'Long screws' must lie between 0 and the thickness of 'cassette'"},
      {"no diameter",
       [](HeatedPanel& m) {
         Part& screws = add_screws(m, 4, 0.1);
         screws.properties = {};
         put(screws.properties, "Panel_Fastener", "DepthInInsulation", 0.1);
       },
       "fastener 'Long screws' has no Panel_Fastener.Diameter"},
      {"no λ", [](HeatedPanel& m) { add_screws(m, 4, 0.1).material.reset(); },
       "the material of fastener 'Long screws' has no Pset_MaterialThermal.ThermalConductivity"},
  };
  for (const Case& c : cases) {
    INFO(c.label);
    HeatedPanel model;
    c.spoil(model);
    const auto result = corrected(model);
    CHECK(result.u_value.verdict == Verdict::not_assessed);
    CHECK(result.u_value.reason == c.reason);
    CHECK_FALSE(result.transmittance);
  }
}

TEST_CASE("fasteners of unknown depth can be assumed to lie outside the insulation") {
  HeatedPanel model;
  const double before = number_of(corrected(model).u_value);
  add_screws(model, 40, 0.140).properties = {};
  model.settings.set("thermal.fasteners_of_unknown_depth", std::string("outside insulation"));
  CHECK(number_of(corrected(model).u_value) == before);
}

TEST_CASE("a slightly ventilated layer puts the resistance between unventilated and well ventilated") {
  const auto resistance = [](std::optional<bool> ventilated, std::optional<double> openings) {
    HeatedPanel model;
    Layer& layer = add_layer(model.panel(), "cavity", "air", std::nullopt, 0.025);
    layer.is_ventilated = ventilated;
    if (openings) put(layer.properties, "Panel_AirLayer", "OpeningArea", *openings);
    add_layer(model.panel(), "cladding", "finish", model.gypsum, 0.02);
    return number_of(corrected(model).r_value);
  };
  const double unventilated = resistance(false, std::nullopt);
  const double well = resistance(true, std::nullopt);
  REQUIRE(well < unventilated);
  CHECK(resistance(std::nullopt, 500.0) == Approx(unventilated).epsilon(1e-12));
  CHECK(resistance(std::nullopt, 1500.0) == Approx(well).epsilon(1e-12));
  CHECK(resistance(true, 750.0) == Approx(0.75 * unventilated + 0.25 * well).epsilon(1e-12));
}

TEST_CASE("openings that contradict IsVentilated, or are negative, are named") {
  const auto reason = [](bool ventilated, double openings) {
    HeatedPanel model;
    Layer& layer = add_layer(model.panel(), "cavity", "air", std::nullopt, 0.025);
    layer.is_ventilated = ventilated;
    put(layer.properties, "Panel_AirLayer", "OpeningArea", openings);
    return corrected(model).u_value.reason;
  };
  CHECK(reason(false, 800.0) ==
        "air layer 'cavity' has openings of more than 500 mm²/m although IfcMaterialLayer.IsVentilated is FALSE");
  CHECK(reason(true, -1.0) == "openings of air layer 'cavity' must not be below 0");
}

// EN ISO 6946:2017, F.2, worked by hand: R_1 = 4, R_tot,h = 5 m²·K/W, level 2: 0.04 · 0.64 = 0.0256. Rounding only.
TEST_CASE("the correction for air voids falls with the square of the insulation's share") {
  CHECK(thermal::air_void_correction(0.04, {4.0, 5.0}) == Approx(0.0256).epsilon(1e-12));
}

// EN ISO 6946:2017, F.3: a recessed fastener counts with α = 0.8 · d_1 / d_0. From memory.
TEST_CASE("a fastener through half of the insulation has half the correction") {
  const thermal::InsulationShare share{4.0, 5.0};
  CHECK(thermal::fastener_correction({50.0, 30e-6, 4.0, 0.07, 0.14}, share) ==
        Approx(0.5 * thermal::fastener_correction({50.0, 30e-6, 4.0, 0.14, 0.14}, share)).epsilon(1e-12));
}

// EN ISO 6946:2017, F.3: no correction where the fastener conducts less than 1 W/(m·K). From memory.
TEST_CASE("plastic fasteners have no correction") {
  CHECK(thermal::fastener_correction({0.99, 12.5e-6, 2.5, 0.1, 0.1}, {1.0, 1.0}) == 0.0);
  CHECK(thermal::fastener_correction({1.0, 12.5e-6, 2.5, 0.1, 0.1}, {1.0, 1.0}) > 0.0);
}

// EN ISO 6946:2017, annex F: corrections of less than 3 % of U need not be applied. From memory.
TEST_CASE("corrections may be left out below 3 per cent of U and not above") {
  CHECK(thermal::may_be_left_out(0.0059, 0.2));
  CHECK_FALSE(thermal::may_be_left_out(0.0061, 0.2));
}

// EN ISO 6946:2017, 6.9.2 to 6.9.4: unventilated up to 500 mm²/m, well ventilated from 1500 mm²/m, and in between
// R_tot = (1500 − A_v)/1000 · R_tot,u + (A_v − 500)/1000 · R_tot,v. From memory.
TEST_CASE("openings between 500 and 1500 mm² per metre make a slightly ventilated air layer") {
  CHECK(thermal::ventilated_share(0.0) == 0.0);
  CHECK(thermal::ventilated_share(500.0) == 0.0);
  CHECK(thermal::ventilated_share(800.0) == Approx(0.3).epsilon(1e-12));
  CHECK(1.0 - thermal::ventilated_share(800.0) == Approx((1500.0 - 800.0) / 1000.0).epsilon(1e-12));
  CHECK(thermal::ventilated_share(1500.0) == 1.0);
  CHECK(thermal::ventilated_share(9000.0) == 1.0);
}
