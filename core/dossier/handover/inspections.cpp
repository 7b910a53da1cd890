#include "core/dossier/handover/inspections.h"

#include <utility>

#include "core/api/support/iso_date.h"

namespace panel_dossier {

std::vector<std::vector<DatedInspection>> stated_inspections(const Project& project) {
  std::vector<std::vector<DatedInspection>> stated;
  stated.reserve(project.panels.size());
  for (const Panel& panel : project.panels) {
    std::vector<DatedInspection> own;
    const auto day = panel.properties.text("Pset_Condition", "NextAssessmentDate");
    if (day && is_iso_date(day->value)) {
      own.push_back({day->value, "Assessment of the condition", describe(day->origin)});
    }
    stated.push_back(std::move(own));
  }
  return stated;
}

}  // namespace panel_dossier
