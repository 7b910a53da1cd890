// When a panel is to be looked at next, as far as somebody has said so.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/project.h"
#include "core/dossier/guidance/calendar.h"

namespace panel_dossier {

/// One entry of a calendar of inspections.
struct DatedInspection {
  std::string day;     ///< YYYY-MM-DD
  std::string what;    ///< in words
  std::string source;  ///< who or what says so
};

/// Of each panel, in the project's order, the inspections that the export and the records state; none is worked out.
std::vector<std::vector<DatedInspection>> stated_inspections(const Project& project);

/// Adds to those of each panel what the calendar has on the first of its days after `after` (YYYY-MM-DD) that concerns
/// the panel.
void add_next_planned(std::vector<std::vector<DatedInspection>>& inspections, const Calendar& calendar,
                      std::string_view after);

}  // namespace panel_dossier
