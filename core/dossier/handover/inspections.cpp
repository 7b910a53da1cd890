#include "core/dossier/handover/inspections.h"

#include <cstddef>
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

void add_next_planned(std::vector<std::vector<DatedInspection>>& inspections, const Calendar& calendar,
                      std::string_view after) {
  std::vector<std::string_view> next(inspections.size());
  for (const CalendarEntry& entry : calendar.entries) {
    if (entry.day <= after) continue;
    for (const std::size_t panel : entry.panels) {
      if (next.at(panel).empty()) next[panel] = entry.day;
      if (next[panel] != entry.day) continue;
      const std::string of = entry.of.empty() ? std::string() : " (" + entry.of + ")";
      inspections[panel].push_back({entry.day, entry.what + of, entry.source});
    }
  }
}

}  // namespace panel_dossier
