#include "plugins/quantities/programme/programme_schedule.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace panel_dossier::quantities {

namespace {

constexpr double kMicroHoursInHour = 1.0e6;

/// The end of the latest load-bearing panel by storey of one building.
using BearingEnds = std::map<std::size_t, MicroHours>;

MicroHours end_below(const BearingEnds& ends, std::size_t storey) {
  MicroHours latest = 0;
  for (const auto& [below, end] : ends) {
    if (below < storey) latest = std::max(latest, end);
  }
  return latest;
}

}  // namespace

MicroHours micro_hours(double value_h) {
  return std::llround(value_h * kMicroHoursInHour);
}

std::vector<ErectionSlot> schedule_tasks(const std::vector<ErectionTask>& tasks, std::size_t cranes, MicroHours day) {
  // On one clock of lifting hours alone; nights and rest days take no time.
  std::vector<MicroHours> free(cranes, 0);
  std::vector<MicroHours> ends;
  std::vector<ErectionSlot> slots;
  std::map<std::size_t, BearingEnds> bearing;
  MicroHours previous_start = 0;
  for (const ErectionTask& task : tasks) {
    const auto crane = std::min_element(free.begin(), free.end());
    MicroHours start = std::max({*crane, previous_start, end_below(bearing[task.building], task.storey)});
    for (const std::size_t before : task.after) start = std::max(start, ends[before]);
    if (start % day + task.time > day + kRoundingSlack) start += day - start % day;
    const MicroHours dawn = start - start % day;
    const MicroHours end = std::min(start + task.time, dawn + day);
    *crane = end;
    previous_start = start;
    ends.push_back(end);
    MicroHours& latest = bearing[task.building][task.storey];
    if (task.bearing) latest = std::max(latest, end);
    slots.push_back({static_cast<std::size_t>(start / day), static_cast<std::size_t>(crane - free.begin()),
                     start - dawn, start + task.time - dawn});
  }
  return slots;
}

std::size_t days_of(const std::vector<ErectionSlot>& slots) {
  std::size_t days = 0;
  for (const ErectionSlot& slot : slots) days = std::max(days, slot.day + 1);
  return days;
}

std::size_t fewest_days(MicroHours total, std::size_t cranes, MicroHours day) {
  const MicroHours a_day = static_cast<MicroHours>(cranes) * (day + kRoundingSlack);
  return static_cast<std::size_t>((total + a_day - 1) / a_day);
}

}  // namespace panel_dossier::quantities
