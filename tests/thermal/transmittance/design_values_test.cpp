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
  put(model.project.materials[model.board].properties, "Panel_Thermal", "DesignValueClass", std::string("OSB 650"));
  model.settings.set("thermal.design_value_classes.softwood", std::string("timber 700"));
  const auto finding = design_values(model);
  CHECK(finding.verdict == Verdict::information);
  REQUIRE(finding.tables.size() == 1);
  CHECK(finding.tables.front().rows.size() == 2);
  CHECK(number_of(finding) == Approx(100.0 * (0.18 / 0.13 - 1.0)));
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
  CHECK(design_values(none).reason.find("no material names its class (Panel_Thermal.DesignValueClass") == 0);

  HeatedPanel unknown;
  unknown.settings.set("thermal.design_value_classes.softwood", std::string("marble"));
  CHECK(design_values(unknown).reason.find("design_values.csv has no row 'marble', the class of 'softwood'") == 0);

  HeatedPanel undated;
  declare_wool(undated);
  undated.settings = {};
  CHECK(design_values(undated).reason.find("setting 'thermal.design_mean_temperature_c' is missing") == 0);
}
