// Working days from the project settings.
#pragma once

#include <array>
#include <chrono>
#include <cstddef>
#include <set>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/settings.h"

namespace panel_dossier::quantities {

struct WorkCalendar {
  std::chrono::sys_days start;  ///< no work before it
  std::array<bool, 7> works{};  ///< by weekday, Sunday first; at least one is set
  std::set<std::chrono::sys_days> holidays;
};

/// Reads `quantities.start_date`, `quantities.working_days` (English names such as `Monday`) and `quantities.holidays`
/// (dates; may be empty) as inputs of the finding; notes what is missing or cannot be used.
WorkCalendar read_calendar(FindingBuilder& finding, const Settings& settings);

/// The first `count` working days from the start, as `YYYY-MM-DD`. Precondition: years stay below 10000.
std::vector<std::string> working_dates(const WorkCalendar& calendar, std::size_t count);

/// The last `count` working days before the start, earliest first.
std::vector<std::string> working_dates_before(const WorkCalendar& calendar, std::size_t count);

/// False when the start is a holiday or a day of the week without work.
bool starts_on_working_day(const WorkCalendar& calendar);

}  // namespace panel_dossier::quantities
