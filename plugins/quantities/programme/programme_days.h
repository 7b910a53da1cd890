// Arrivals, erection and storage on site, day by day.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/support/exact_sum.h"
#include "plugins/quantities/programme/programme_calendar.h"
#include "plugins/quantities/programme/programme_report.h"

namespace panel_dossier::quantities {

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
