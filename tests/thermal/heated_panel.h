// The ordinary timber panel between a warm room and a cold day.
#pragma once

#include <string>

#include "core/api/testing/panels.h"

namespace panel_dossier::testing {

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
    settings.set("thermal.climate", std::string("continental example"));
    settings.set("thermal.humidity_class", std::string("normal occupancy"));
  }
};

}  // namespace panel_dossier::testing
