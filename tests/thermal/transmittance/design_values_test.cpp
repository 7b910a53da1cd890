// Conductivities of the export beside tabulated and converted ones.
#include "plugins/thermal/transmittance/design_values.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "tests/thermal/heated_panel.h"
#include "tests/thermal/tables_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

Finding design_values(const HeatedPanel& model) {
  return thermal::check_design_values(model.project, model.settings, thermal_tables());
}

void declare_wool(HeatedPanel& model) {
  Properties& wool = model.project.materials[model.wool].properties;
  put(wool, "Panel_Thermal", "DeclaredConductivity", 0.034);
  put(wool, "Panel_Thermal", "DeclaredTemperature", 10.0);
  put(wool, "Panel_Thermal", "ConversionClass", std::string("mineral wool board 0.034"));
  model.settings.set("thermal.design_mean_temperature_c", 23.0);
}

}  // namespace

TEST_CASE("the class comes from the material or from the settings") {
  HeatedPanel model;
  declare_wool(model);
  put(model.project.materials[model.board].properties, "Panel_Thermal", "DesignValueClass", std::string("OSB 650"));
  model.settings.set("thermal.design_value_classes.softwood", std::string("timber 700"));
  const auto finding = design_values(model);
  CHECK(finding.verdict == Verdict::evidence_needed);
  REQUIRE(finding.tables.size() == 2);
  CHECK(finding.tables.front().rows.size() == 2);
}

TEST_CASE("a declared value is converted to the temperature and moisture in use") {
  HeatedPanel model;
  declare_wool(model);
  CHECK(step_of(design_values(model), "λ_2") == Approx(0.034 * std::exp(0.0043 * 13.0)));
  put(model.project.materials[model.wool].properties, "Panel_Thermal", "DeclaredMoisture", 0.0);
  put(model.project.materials[model.wool].properties, "Panel_Thermal", "DesignMoisture", 0.01);
  CHECK(step_of(design_values(model), "λ_2") == Approx(0.034 * std::exp(0.0043 * 13.0 + 4.0 * 0.01)));
}

TEST_CASE("ageing is converted where the export gives a factor, and said where it does not") {
  HeatedPanel model;
  declare_wool(model);
  const Finding without = design_values(model);
  put(model.project.materials[model.wool].properties, "Panel_Thermal", "AgeingFactor", 1.2);
  CHECK(step_of(design_values(model), "λ_2") == Approx(1.2 * step_of(without, "λ_2")));
  CHECK(std::any_of(without.notes.begin(), without.notes.end(), [](const std::string& note) {
    return note.find("'mineral wool': no ageing is converted (F_a = 1)") == 0;
  }));
}

TEST_CASE("moisture beyond what the coefficient holds for is named") {
  HeatedPanel model;
  declare_wool(model);
  put(model.project.materials[model.wool].properties, "Panel_Thermal", "DeclaredMoisture", 0.0);
  put(model.project.materials[model.wool].properties, "Panel_Thermal", "DesignMoisture", 0.16);
  const Finding finding = design_values(model);
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(
      finding.reason.find("Panel_Thermal.DeclaredMoisture and DesignMoisture of 'mineral wool' must lie between 0 and "
                          "the 0.15 m³/m³ up to which the coefficient holds") == 0);
}

TEST_CASE("what a comparison lacks is named") {
  HeatedPanel none;
  CHECK(design_values(none).reason.find("insulation 'mineral wool' names neither its declared value") == 0);
  none.project.panels.clear();
  CHECK(design_values(none).reason.find("no material names its class (Panel_Thermal.DesignValueClass") == 0);

  HeatedPanel unknown;
  declare_wool(unknown);
  unknown.settings.set("thermal.design_value_classes.softwood", std::string("marble"));
  CHECK(design_values(unknown).reason.find("design_values.csv has no row 'marble', the class of 'softwood'") == 0);

  HeatedPanel undated;
  declare_wool(undated);
  undated.settings = {};
  CHECK(design_values(undated).reason.find("setting 'thermal.design_mean_temperature_c' is missing") == 0);
}

// EN ISO 10456:2007, 7.2 with f_T of table A.1 for mineral wool boards of 0.036 W/(m·K), 0.0048 1/K (from memory),
// worked by hand: 30 K warmer is exp(0.144) = 1.15488, so 0.036 becomes 0.041576. Tolerance: the last digit by hand.
TEST_CASE("a mineral wool board conducts 15 per cent more at 40 °C than at 10 °C") {
  const thermal::ConversionCoefficients board{0.0048, 4.0, 0.15};
  CHECK(thermal::temperature_factor(board, {10.0, 0.0}, {40.0, 0.0}) == Approx(1.15488).margin(0.000005));
  CHECK(thermal::converted_conductivity(0.036, board, {10.0, 0.0}, {40.0, 0.0}, 1.0) ==
        Approx(0.041576).margin(0.0000005));
}

// EN ISO 10456:2007, 7.3 with f_ψ = 4 of table 4 for mineral wool (from memory), by hand: exp(4 · 0.05) = 1.22140.
TEST_CASE("five per cent of moisture by volume raises the conductivity of mineral wool by 22 per cent") {
  CHECK(thermal::moisture_factor({0.0, 4.0, 0.15}, {10.0, 0.0}, {10.0, 0.05}) == Approx(1.22140).margin(0.000005));
}

// EN ISO 10456:2007, 7.1, all three factors at once (f_T and f_ψ as above, from memory; F_a = 1.1 chosen), by hand:
// exp(0.0048 · 10) = 1.049171, exp(4 · 0.02) = 1.083287, so 0.036 · 1.049171 · 1.083287 · 1.1 = 0.045008.
TEST_CASE("temperature, moisture and ageing multiply") {
  const thermal::ConversionCoefficients board{0.0048, 4.0, 0.15};
  CHECK(thermal::converted_conductivity(0.036, board, {10.0, 0.0}, {20.0, 0.02}, 1.1) ==
        Approx(0.045008).margin(0.000001));
}

// Closed form: the factors are exponentials of differences, so there and back is the identity.
TEST_CASE("a conversion there and back gives the first value") {
  const thermal::ConversionCoefficients wool{0.0056, 4.0, 0.15};
  const thermal::MaterialConditions dry{10.0, 0.0};
  const thermal::MaterialConditions damp{23.0, 0.02};
  const double there = thermal::converted_conductivity(0.040, wool, dry, damp, 1.0);
  CHECK(thermal::converted_conductivity(there, wool, damp, dry, 1.0) == Approx(0.040).epsilon(1e-12));
}
