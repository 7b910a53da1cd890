// Time and programme at an output of the crew that is usual.
#include <catch2/catch.hpp>
#include <string>
#include <utility>

#include "tests/quantities/delivery_site.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

// A common practice figure without source: 825 m² of panels stand after 40 hours of three joiners with a crane
// operative and a slinger, so 20.625 m²/h.
TEST_CASE("825 m² take one crew 40 hours") {
  Settings practice;
  practice.set("quantities.crew_area_rate_m2_per_h", 825.0 / 40.0);
  Panel face = cassette("P1");
  face.width_m.value = 33.0;
  face.height_m.value = 25.0;
  CHECK(std::get<double>(erection_time(face, practice).value) == 40.0);
}

// A common practice figure without source: 825 m² of panels stand after 40 working hours of three joiners with a crane
// operative and a slinger, about 20.6 m²/h. Fifty panels of 16.5 m² take 0.8 h each then, ten a day of eight hours, and
// one week of five days; so do sixty of 13.75 m² at two thirds of an hour, twelve a day, which rounding must not upset.
TEST_CASE("825 m² of panels stand after a week of five days") {
  Settings given = site_settings();
  given.set("quantities.crew_area_rate_m2_per_h", 825.0 / 40.0);
  given.set("quantities.crane_hours_per_day", 8.0);
  given.set("quantities.holidays.0", std::string("2026-12-25"));
  for (const auto& [count, height_m] : {std::pair{50, 3.0}, std::pair{60, 2.5}}) {
    INFO(count);
    Project project = numbered_project(count);
    for (Panel& panel : project.panels) {
      panel.width_m.value = 5.5;
      panel.height_m.value = height_m;
    }
    const Finding programme = site_findings_of(project, given).back();
    REQUIRE(programme.verdict == Verdict::information);
    CHECK(std::get<double>(programme.value) == 5.0);
    CHECK(step(programme, "N_min") == 5.0);
    const auto& rows = table_of(programme, "By working day").rows;
    for (const auto& row : rows) CHECK(std::get<double>(row[2]) == count / 5.0);
    CHECK(std::get<std::string>(rows.back()[0]) == "2026-04-10");
  }
}

// The same panels with a crane that lifts six hours of the eight: at best 40/6 = 6.7 days; seven panels of 0.8 h a day
// leave one for the eighth.
TEST_CASE("a crane's hours of lifting bound the day of its crew") {
  Project project = numbered_project(50);
  for (Panel& panel : project.panels) {
    panel.width_m.value = 5.5;
    panel.height_m.value = 3.0;
  }
  Settings given = site_settings();
  given.set("quantities.crew_area_rate_m2_per_h", 825.0 / 40.0);
  const Finding programme = site_findings_of(project, given).back();
  CHECK(step(programme, "N_min") == 7.0);
  CHECK(std::get<double>(programme.value) == 8.0);
}
