// The erection programme as tables and charts.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "plugins/quantities/programme/programme_schedule.h"

namespace panel_dossier::quantities {

/// What the report is drawn from; tasks and slots are those of `panels`, one each.
struct ScheduledPanels {
  const Project& project;
  const std::vector<std::size_t>& panels;  ///< indices into Project::panels, in the order of erection
  const std::vector<ErectionTask>& tasks;
  const std::vector<ErectionSlot>& slots;
  const std::vector<std::string>& dates;  ///< of the working days
  const std::vector<std::size_t>& loads;  ///< by panel of the project, from 0; empty when they are not known
};

/// One row a working day: the panels in order, their storeys and loads.
Table panel_day_table(const ScheduledPanels& scheduled);
/// One row a storey, the lowest of each building first: first and last day, and when what bears it is up.
Table storey_table(const ScheduledPanels& scheduled);
/// One row a panel that waits for others by `Panel_Identity.After`; no rows when none does. The first forty only.
Table dependency_table(const ScheduledPanels& scheduled);
/// One bar a storey over the working days.
BarChart storey_chart(const ScheduledPanels& scheduled);
/// One bar a crane and working day over the hours of lifting, filled by the load that brings each panel; the first
/// bars only when there are many.
BarChart crane_chart(const ScheduledPanels& scheduled, std::size_t cranes);

}  // namespace panel_dossier::quantities
