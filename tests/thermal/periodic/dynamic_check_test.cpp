#include "plugins/thermal/periodic/dynamic_check.h"

#include <catch2/catch.hpp>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/thermal/transmittance/transmittance.h"
#include "tests/thermal/heated_panel.h"
#include "tests/thermal/tables_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::thermal;

namespace {

std::vector<Finding> check(const HeatedPanel& model) {
  FindingBuilder builder(thermal::kUValueCheck, "");
  TransmittanceResult result;
  result.transmittance = Transmittance{
      read_build_up(model.project.panels.front(), model.project, model.settings, thermal_tables(), builder), {}};
  return check_dynamic_characteristics(model.project.panels.front(), model.project, result);
}

}  // namespace

TEST_CASE("a light panel damps little and its flow comes a few hours later") {
  const auto findings = check({});
  const Finding& decrement = finding_of(findings, "thermal.decrement");
  CHECK(decrement.verdict == Verdict::information);
  CHECK(number_of(decrement) > 0.5);
  CHECK(number_of(decrement) < 1.0);
  CHECK(step_of(decrement, "Δt_f") < 0.0);
  CHECK(step_of(decrement, "Δt_f") > -8.0);
  CHECK(number_of(finding_of(findings, "thermal.dynamic_transmittance")) ==
        Approx(number_of(decrement) * step_of(decrement, "U_0")));
}

TEST_CASE("the inner areal heat capacity is at least most of the lining's") {
  // 12.5 mm of gypsum board hold 800 · 1000 · 0.0125 = 10 kJ/(m²·K); the wool behind adds a little.
  const double capacity = number_of(finding_of(check({}), "thermal.areal_heat_capacity"));
  CHECK(capacity > 9.0);
  CHECK(capacity < 15.0);
}

TEST_CASE("a missing heat capacity or density is named in all three") {
  HeatedPanel model;
  Properties& wool = model.project.materials[model.wool].properties;
  wool = {};
  put(wool, "Pset_MaterialThermal", "ThermalConductivity", 0.035);
  for (const Finding& finding : check(model)) {
    INFO(finding.check);
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason ==
          "material 'mineral wool' has no Pset_MaterialCommon.MassDensity; material 'mineral wool' has no "
          "Pset_MaterialThermal.SpecificHeatCapacity");
  }
}
