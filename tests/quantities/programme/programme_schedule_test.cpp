#include "plugins/quantities/programme/programme_schedule.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <map>
#include <random>
#include <utility>
#include <vector>

using namespace panel_dossier::quantities;

namespace {

constexpr MicroHours kHour = 1'000'000;
constexpr MicroHours kDay = 6 * kHour;

std::vector<ErectionTask> random_tasks(unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_int_distribution<MicroHours> time(1, kDay);
  std::vector<ErectionTask> tasks;
  for (std::size_t i = 0; i < 200; ++i) {
    ErectionTask task{time(random), {}, i % 2, i / 70, random() % 3 == 0};
    if (i > 0 && random() % 4 == 0) task.after.push_back(random() % i);
    tasks.push_back(std::move(task));
  }
  return tasks;
}

MicroHours total_of(const std::vector<ErectionTask>& tasks) {
  MicroHours total = 0;
  for (const ErectionTask& task : tasks) total += task.time;
  return total;
}

/// On one clock of lifting hours.
MicroHours start_of(const ErectionSlot& slot) {
  return static_cast<MicroHours>(slot.day) * kDay + slot.start;
}
MicroHours end_of(const ErectionSlot& slot) {
  return static_cast<MicroHours>(slot.day) * kDay + slot.end;
}

}  // namespace

TEST_CASE("no crane does two things at once or lifts longer than its day") {
  for (unsigned seed = 1; seed <= 10; ++seed) {
    const std::vector<ErectionTask> tasks = random_tasks(seed);
    for (std::size_t cranes = 1; cranes <= 4; ++cranes) {
      const std::vector<ErectionSlot> slots = schedule_tasks(tasks, cranes, kDay);
      REQUIRE(slots.size() == tasks.size());
      std::map<std::pair<std::size_t, std::size_t>, MicroHours> lifted;
      std::map<std::size_t, MicroHours> free;
      for (std::size_t i = 0; i < slots.size(); ++i) {
        const ErectionSlot& slot = slots[i];
        CHECK(slot.end - slot.start == tasks[i].time);
        CHECK(slot.end <= kDay + kRoundingSlack);
        CHECK(slot.crane < cranes);
        CHECK(start_of(slot) >= free[slot.crane]);
        // The clock stops at the end of the day.
        free[slot.crane] = std::min(end_of(slot), static_cast<MicroHours>(slot.day + 1) * kDay);
        lifted[{slot.day, slot.crane}] += tasks[i].time;
      }
      for (const auto& [day_and_crane, time] : lifted) CHECK(time <= kDay + kRoundingSlack);
      CHECK(fewest_days(total_of(tasks), cranes, kDay) <= days_of(slots));
    }
  }
}

TEST_CASE("tasks wait for their predecessors and for what bears them") {
  for (unsigned seed = 1; seed <= 10; ++seed) {
    const std::vector<ErectionTask> tasks = random_tasks(seed);
    const std::vector<ErectionSlot> slots = schedule_tasks(tasks, 3, kDay);
    for (std::size_t i = 0; i < slots.size(); ++i) {
      if (i > 0) CHECK(start_of(slots[i]) >= start_of(slots[i - 1]));
      for (const std::size_t before : tasks[i].after) CHECK(start_of(slots[i]) >= end_of(slots[before]));
      for (std::size_t below = 0; below < i; ++below) {
        const bool bears =
            tasks[below].bearing && tasks[below].building == tasks[i].building && tasks[below].storey < tasks[i].storey;
        if (bears) CHECK(start_of(slots[i]) >= end_of(slots[below]));
      }
    }
  }
}

TEST_CASE("a panel that would hang overnight is lifted the next morning") {
  const std::vector<ErectionSlot> slots =
      schedule_tasks({{4 * kHour, {}, 0, 0, false}, {3 * kHour, {}, 0, 0, false}}, 1, kDay);
  CHECK(slots[1].day == 1);
  CHECK(slots[1].start == 0);
  CHECK(days_of(slots) == 2);
}

TEST_CASE("tasks that fill the day to the last moment need no second day") {
  const std::vector<ErectionTask> thirds(3, ErectionTask{2 * kHour, {}, 0, 0, false});
  CHECK(days_of(schedule_tasks(thirds, 1, kDay)) == 1);
  CHECK(days_of(schedule_tasks(thirds, 3, kDay)) == 1);
  CHECK(schedule_tasks(thirds, 3, kDay)[2].crane == 2);
}

TEST_CASE("rounding pushes no panel to the next day") {
  for (const int parts : {3, 6, 7, 11, 13, 17, 19}) {
    INFO(parts);
    // 6 h in as many equal tasks, each rounded to the millionth: their sum may exceed the day by half a millionth each.
    const std::vector<ErectionTask> tasks(static_cast<std::size_t>(4 * parts),
                                          ErectionTask{micro_hours(6.0 / parts), {}, 0, 0, false});
    const std::vector<ErectionSlot> slots = schedule_tasks(tasks, 1, kDay);
    CHECK(days_of(slots) == 4);
    CHECK(fewest_days(total_of(tasks), 1, kDay) == 4);
    // Each day begins at its beginning, not by what the one before ran over.
    for (std::size_t i = 0; i < slots.size(); i += static_cast<std::size_t>(parts)) CHECK(slots[i].start == 0);
  }
}

TEST_CASE("what exceeds the day by more than rounding waits for the next") {
  const auto days = [](MicroHours over) {
    return days_of(schedule_tasks({{kDay - kHour, {}, 0, 0, false}, {kHour + over, {}, 0, 0, false}}, 1, kDay));
  };
  CHECK(days(kRoundingSlack) == 1);
  CHECK(days(kRoundingSlack + 1) == 2);
  CHECK(fewest_days(kDay + kRoundingSlack, 1, kDay) == 1);
  CHECK(fewest_days(kDay + kRoundingSlack + 1, 1, kDay) == 2);
}

TEST_CASE("two cranes halve independent work and not a chain") {
  std::vector<ErectionTask> tasks(8, ErectionTask{3 * kHour, {}, 0, 0, false});
  CHECK(days_of(schedule_tasks(tasks, 1, kDay)) == 4);
  CHECK(days_of(schedule_tasks(tasks, 2, kDay)) == 2);
  for (std::size_t i = 1; i < tasks.size(); ++i) tasks[i].after = {i - 1};
  CHECK(days_of(schedule_tasks(tasks, 2, kDay)) == 4);
}

// April 2026: the 3rd is a Friday, the 6th a Monday, the 7th a holiday.
TEST_CASE("working days between two dates leave out weekends and holidays, and count backwards too") {
  WorkCalendar calendar;
  calendar.start = std::chrono::sys_days{std::chrono::year{2026} / 4 / 6};
  calendar.works = {false, true, true, true, true, true, false};
  calendar.holidays = {std::chrono::sys_days{std::chrono::year{2026} / 4 / 7}};
  CHECK(working_days_between(calendar, "2026-04-06", "2026-04-06") == 0);
  CHECK(working_days_between(calendar, "2026-04-06", "2026-04-08") == 1);
  CHECK(working_days_between(calendar, "2026-04-08", "2026-04-06") == -1);
  CHECK(working_days_between(calendar, "2026-04-03", "2026-04-10") == 4);
  CHECK_FALSE(working_days_between(calendar, "2026-04-03", "2026-04-31"));
  CHECK_FALSE(working_days_between(calendar, "2026-04-03", "2099-04-03"));
}
