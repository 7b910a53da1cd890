// The ordinary timber panel between a warm room and a cold day.
#pragma once

#include <array>
#include <cstddef>
#include <string>

#include "core/api/testing/change.h"
#include "core/api/testing/panels.h"

namespace panel_dossier::testing {

/// The year of a continental place, given as a project gives the measured table of its site: `continental example` of
/// climates.csv, which no project with a jurisdiction may name.
inline void set_continental_year(Settings& settings) {
  constexpr std::array kTemperature_c{-1.0, 0.0, 4.0, 9.0, 14.0, 18.0, 19.0, 19.0, 15.0, 10.0, 5.0, 1.0};
  constexpr std::array kHumidity{0.85, 0.84, 0.78, 0.72, 0.68, 0.69, 0.73, 0.75, 0.79, 0.83, 0.88, 0.88};
  for (std::size_t month = 0; month < kTemperature_c.size(); ++month) {
    const std::string number = std::to_string(month);
    settings.set("thermal.monthly.external_temperature_c." + number, kTemperature_c.at(month));
    settings.set("thermal.monthly.external_relative_humidity." + number, kHumidity.at(month));
  }
}

/// The climate of climates.csv in the place of the year that the settings hold.
inline Change climate_of_table(const std::string& location) {
  return together({drop_settings("thermal.monthly."), set_setting("thermal.climate", location)});
}

/// With the settings that the thermal checks ask for, a U-value that the design asks of each panel, and the report of
/// its air test.
struct HeatedPanel : TimberPanel {
  HeatedPanel() {
    settings.set("thermal.design_u_w_per_m2k", 0.26);
    Evidence report;
    report.id = "AIR-1";
    report.location = "evidence/air.pdf";
    report.kind = EvidenceKind::air_test_report;
    report.number = "AIR-1";
    report.status = EvidenceStatus::present;
    report.origin = origin_of("IfcDocumentReference");
    project.evidence.push_back(report);
    put(panel().properties, "Panel_Air", "DocumentId", std::string("AIR-1"));
    settings.set("thermal.air_void_level", 0.0);
    settings.set("thermal.internal_temperature_c", 20.0);
    settings.set("thermal.external_temperature_c", -3.0);
    set_continental_year(settings);
    settings.set("thermal.humidity_class", std::string("normal occupancy"));
  }
};

}  // namespace panel_dossier::testing
