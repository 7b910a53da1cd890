// The erection programme as tables and charts.
#pragma once

#include <string>
#include <vector>

#include "core/api/drawing.h"
#include "core/api/finding.h"
#include "core/api/project.h"
#include "plugins/quantities/programme_schedule.h"

namespace panel_dossier::quantities {

/// What the report is drawn from; the slots are those of `panels`, one each.
struct ScheduledPanels {
  const Project& project;
  const std::vector<std::size_t>& panels;  ///< indices into Project::panels, in the order of erection
  const std::vector<ErectionSlot>& slots;
  const std::vector<std::string>& dates;  ///< of the working days
};

/// One row a working day: how many panels of which storeys, their hours and marks.
Table day_table(const ScheduledPanels& scheduled);
/// One bar a storey over the working days.
BarChart storey_chart(const ScheduledPanels& scheduled);
/// One bar a working day with crane hours by storey; the first days only when there are many.
BarChart day_chart(const ScheduledPanels& scheduled);

}  // namespace panel_dossier::quantities
