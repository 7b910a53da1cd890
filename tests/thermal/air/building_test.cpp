#include <catch2/catch.hpp>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "core/api/testing/records.h"
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

namespace {

/// The building tested on that day, with the report AIR-1; its panel was installed on 2026-04-07.
HeatedPanel tested_on(const char* day) {
  HeatedPanel model;
  put(model.project.properties, "Panel_Air", "PermeabilityQ50", 3.0);
  put(model.project.properties, "Panel_Air", "DocumentId", std::string("AIR-1"));
  put(model.panel().properties, "Panel_Install", "Date", std::string("2026-04-07"));
  model.project.records.push_back(record_of("air_tests", day, {{"q50", 3.0, "m³/(h·m²)"}}));
  return model;
}

}  // namespace

TEST_CASE("a building is tested once its panels stand and before it is assessed") {
  CHECK(check(tested_on("2026-05-20")).verdict == Verdict::pass);
  const Finding later = check(tested_on("2027-04-01"));
  CHECK(later.verdict == Verdict::evidence_needed);
  CHECK(later.reason ==
        "the air test of 2027-04-01 (records/air_tests.csv, row 2) lies after project.assessment_date 2026-06-01; "
        "correct one of the days");
  const Finding earlier = check(tested_on("2019-05-20"));
  CHECK(earlier.verdict == Verdict::evidence_needed);
  CHECK(earlier.reason.find("the air test of the whole building of 2019-05-20 (records/air_tests.csv, row 2) lies "
                            "before panel 'P-01' was installed on 2026-04-07") == 0);
}

TEST_CASE("a report is not older than its test") {
  HeatedPanel model = tested_on("2026-05-20");
  model.project.evidence.front().issued = "2026-05-19";
  const Finding finding = check(model);
  CHECK(finding.verdict == Verdict::evidence_needed);
  CHECK(finding.reason ==
        "the air test of 2026-05-20 (records/air_tests.csv, row 2) lies after its report 'AIR-1' was issued on "
        "2026-05-19; name the report of this test, or correct one of the days");
}
