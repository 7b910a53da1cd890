// When panels are erected: working days from the project settings, and panels on cranes, hour by hour.
#pragma once

#include <array>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <optional>
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

/// Whether work is done on the day, a date `YYYY-MM-DD`; false for any other text. Days before the start count too.
bool is_working_day(const WorkCalendar& calendar, const std::string& date);

/// Working days after `from` up to and with `to`, dates `YYYY-MM-DD`; negative where `to` is the earlier. None where
/// either is no date, or more than ten years lie between.
std::optional<int> working_days_between(const WorkCalendar& calendar, const std::string& from, const std::string& to);

/// The first `count` working days from the start, as `YYYY-MM-DD`. Precondition: years stay below 10000.
std::vector<std::string> working_dates(const WorkCalendar& calendar, std::size_t count);

/// The last `count` working days before the start, earliest first.
std::vector<std::string> working_dates_before(const WorkCalendar& calendar, std::size_t count);

/// False when the start is a holiday or a day of the week without work.
bool starts_on_working_day(const WorkCalendar& calendar);

/// Whole millionths of an hour, so that a day's hours add up exactly.
using MicroHours = std::int64_t;

constexpr double hours(MicroHours value) {
  return static_cast<double>(value) / 1.0e6;
}
/// `value_h` in h; magnitude below 9·10⁹ h.
MicroHours micro_hours(double value_h);

/// By how much a day's tasks may exceed the day and still count as filling it: each task is rounded to a millionth of
/// an hour, which must not push the last of twenty equal ones to the next morning. 36 ms mean nothing on site.
inline constexpr MicroHours kRoundingSlack = 10;

/// One panel to lift and fix.
struct ErectionTask {
  MicroHours time = 0;
  std::vector<std::size_t> after;  ///< indices of earlier tasks that are finished before this one begins
  std::size_t building = 0;
  std::size_t storey = 0;  ///< from 0, bottom up
  bool bearing = false;    ///< panels of the storeys above rest on it
};

/// When and by which crane a task is done; hours count from the start of the day's lifting. `end` may lie
/// `kRoundingSlack` beyond the day; the crane's clock then stops at the end of the day.
struct ErectionSlot {
  std::size_t day = 0;  ///< working day from 0
  std::size_t crane = 0;
  MicroHours start = 0;
  MicroHours end = 0;
};

/// Gives each task in turn to the crane that is free first. A task begins no sooner than the one before it in the list,
/// once its predecessors and the load-bearing panels of the storeys below that come before it in the list are up. A
/// panel that is begun is fixed the same day: it never hangs on the crane overnight. One slot a task, in their order.
/// O(tasks · (cranes + storeys)).
/// Precondition: 0 < time <= `day` + `kRoundingSlack` for each task; `cranes` > 0.
std::vector<ErectionSlot> schedule_tasks(const std::vector<ErectionTask>& tasks, std::size_t cranes, MicroHours day);

/// Working days that the slots take.
std::size_t days_of(const std::vector<ErectionSlot>& slots);

/// No programme is shorter: tasks of `total` hours at the full day of every crane, with the slack that a day has.
/// Precondition: `cranes` > 0.
std::size_t fewest_days(MicroHours total, std::size_t cranes, MicroHours day);

}  // namespace panel_dossier::quantities
