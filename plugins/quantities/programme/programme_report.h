// The erection programme as tables and charts; arrivals, erection and storage on site, day by day.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/support/exact_sum.h"
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
/// One row a face of a building (`Panel_Identity.Elevation`) and storey: the day on which its last panel is up, and the
/// working day on which its joints are sealed, `sealing_days` later; without that column where they are not given.
Table face_table(const ScheduledPanels& scheduled, const WorkCalendar& calendar,
                 std::optional<std::size_t> sealing_days);
/// One row a panel in the order of lifting: day, crane, and hours from the beginning of the day's lifting.
Table lift_table(const ScheduledPanels& scheduled);
/// One row a panel that waits for others by `Panel_Identity.After`; no rows when none does. The first forty only.
Table dependency_table(const ScheduledPanels& scheduled);
/// One bar a storey over the working days.
BarChart storey_chart(const ScheduledPanels& scheduled);
/// One bar a crane and working day over the hours of lifting, filled by the load that brings each panel; the first
/// bars only when there are many.
BarChart crane_chart(const ScheduledPanels& scheduled, std::size_t cranes);

struct SiteDay {
  std::string date;
  std::vector<std::size_t> loads;  ///< that arrive, from 0
  std::size_t panels = 0;          ///< erected
  MicroHours lifting = 0;
  ExactSum area_m2;         ///< gross, erected
  std::size_t waiting = 0;  ///< panels that have arrived and not been erected by the end of the day
  double waiting_m2 = 0.0;  ///< their gross area
};

struct SiteDays {
  std::vector<SiteDay> days;          ///< every working day from the first arrival to the last panel
  std::vector<std::string> arrivals;  ///< by load; empty when the loads are not known
  std::size_t most_waiting = 0;       ///< panels at the end of a day
  double most_waiting_m2 = 0.0;       ///< gross area at the end of a day
};

/// Each load arrives `lead` working days before the day of its first panel.
SiteDays site_days(const ScheduledPanels& scheduled, const WorkCalendar& calendar, std::size_t lead);

/// One row a working day. `people` of one crew give the crew's hours while panels are lifted.
Table site_day_table(const SiteDays& site, double people);

}  // namespace panel_dossier::quantities
