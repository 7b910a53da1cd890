#include <catch2/catch.hpp>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/thermal/air/air_permeability.h"
#include "tests/thermal/heated_panel.h"
#include "tests/thermal/tables_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

Finding check(const HeatedPanel& model) {
  return thermal::check_building_air(model.project, model.settings, thermal_tables());
}

}  // namespace

TEST_CASE("a building that is not tested yet says so") {
  const Finding finding = check(HeatedPanel());
  CHECK(finding.verdict == Verdict::evidence_needed);
  CHECK(finding.reason.find("the whole building is not tested yet") == 0);
}

TEST_CASE("the air change rate becomes the permeability by volume over envelope") {
  HeatedPanel model;
  put(model.project.properties, "Panel_Air", "AirChangeRateN50", 2.5);
  put(model.project.properties, "Panel_Air", "DocumentId", std::string("AIR-1"));
  CHECK(check(model).reason ==
        "setting 'building.volume_m3' is missing; setting 'building.envelope_area_m2' is missing");
  model.settings.set("building.volume_m3", 3000.0);
  model.settings.set("building.envelope_area_m2", 1500.0);
  const Finding finding = check(model);
  CHECK(number_of(finding) == Approx(5.0));
  CHECK(finding.verdict == Verdict::pass);
}

TEST_CASE("a building that leaks more than the limit fails, and a rate of 0 is no measurement") {
  HeatedPanel model;
  put(model.project.properties, "Panel_Air", "PermeabilityQ50", 9.0);
  CHECK(check(model).verdict == Verdict::fail);
  HeatedPanel zero;
  put(zero.project.properties, "Panel_Air", "PermeabilityQ50", 0.0);
  CHECK(check(zero).verdict == Verdict::not_assessed);
}
