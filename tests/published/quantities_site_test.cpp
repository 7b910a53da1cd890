// Vehicle loads, cranes and dates against figures from outside the project.
#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <random>
#include <variant>
#include <vector>

#include "plugins/quantities/checks.h"
#include "plugins/quantities/programme/programme_schedule.h"
#include "tests/quantities/plain_bed.h"
#include "tests/quantities/programme/lifted_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

// Bin packing, Martello and Toth, Knapsack Problems, 1990, section 8.2 (from memory): with weights 70, 60, 50, 33, 33,
// 33, 11, 7 and 3 and bins of 100, L1 = ⌈300/100⌉ = 3 and the optimum is 4.
TEST_CASE("the bound by mass is the L1 of the textbook's example") {
  std::vector<DeliveryItem> items;
  for (const double mass_kg : {70.0, 60.0, 50.0, 33.0, 33.0, 33.0, 11.0, 7.0, 3.0})
    items.push_back(weight(0.1, mass_kg));
  const LoadBounds bounds = load_bounds(items, plain_bed());
  CHECK(bounds.by_mass == 3);
  // By hand in the order given: 70 | 60 | 50, 33 | 33, 33, 11, 7, 3.
  std::vector<std::size_t> counts;
  for (const Load& load : pack_loads(items, plain_bed())) counts.push_back(load.items.size());
  CHECK(counts == std::vector<std::size_t>{1, 1, 2, 5});
}

// The same weights as lengths in a bed of 10 m. L2 at the threshold 33: 70 stands alone, 60 is over
// half, and of 50 + 33 + 33 + 33 = 149 its bin takes 40, so 1 + 1 + ⌈109/100⌉ = 4, which is the optimum.
TEST_CASE("the bound by rows is the L2 of the textbook's example, which reaches its optimum") {
  std::vector<DeliveryItem> items;
  for (const double length_m : {7.0, 6.0, 5.0, 3.3, 3.3, 3.3, 1.1, 0.7, 0.3}) items.push_back(weight(length_m, 1.0));
  CHECK(load_bounds(items, plain_bed()).by_rows == 4);
}

// Next-fit never needs more than twice the optimum, and comes as near to that as one likes: 1/2, 2ε, 1/2, 2ε … Johnson,
// Near-optimal bin packing algorithms, 1973 (from memory). Forty pairs of 50 kg and 2.5 kg need 21 loads of 100 kg at
// best: 20 for the halves and one for the rest; next-fit gives each pair of neighbours a load of its own.
TEST_CASE("next-fit meets its published worst case and stays within twice the bound") {
  std::vector<DeliveryItem> items;
  for (int i = 0; i < 40; ++i) {
    items.push_back(weight(0.1, 50.0));
    items.push_back(weight(0.1, 2.5));
  }
  const LoadBounds bounds = load_bounds(items, plain_bed());
  CHECK(bounds.by_mass == 21);
  CHECK(pack_loads(items, plain_bed()).size() == 40);
  CHECK(pack_loads(items, plain_bed()).size() <= 2 * bounds.by_mass);
}

// List scheduling of independent tasks needs at most (2 − 1/m) times the shortest span, and this instance reaches it:
// m·(m − 1) tasks of 1 h, then one of m h. Graham, Bounds on multiprocessing timing anomalies, 1969 (from memory).
TEST_CASE("cranes in list order meet the published worst case of list scheduling") {
  constexpr MicroHours kHour = 1'000'000;
  for (std::size_t cranes = 2; cranes <= 5; ++cranes) {
    std::vector<ErectionTask> tasks(cranes * (cranes - 1), ErectionTask{kHour, {}, 0, 0, false});
    tasks.push_back({static_cast<MicroHours>(cranes) * kHour, {}, 0, 0, false});
    const auto slots = schedule_tasks(tasks, cranes, 1000 * kHour);
    CHECK(slots.back().end == static_cast<MicroHours>(2 * cranes - 1) * kHour);
  }
}

// Graham's bound holds for every list of independent tasks: the span is at most Σt/m + (1 − 1/m)·max t.
TEST_CASE("cranes in list order keep the published bound") {
  constexpr MicroHours kHour = 1'000'000;
  std::mt19937 random(1969);
  std::uniform_int_distribution<MicroHours> time(1, 6 * kHour);
  for (std::size_t cranes = 1; cranes <= 5; ++cranes) {
    std::vector<ErectionTask> tasks;
    MicroHours total = 0;
    MicroHours longest = 0;
    for (int i = 0; i < 60; ++i) {
      tasks.push_back({time(random), {}, 0, 0, false});
      total += tasks.back().time;
      longest = std::max(longest, tasks.back().time);
    }
    MicroHours span = 0;
    for (const ErectionSlot& slot : schedule_tasks(tasks, cranes, 1000 * kHour)) span = std::max(span, slot.end);
    const auto m = static_cast<MicroHours>(cranes);
    CHECK(m * span <= total + (m - 1) * longest);
    CHECK(m * span >= total);
  }
}

// Week dates of ISO 8601: 2008-12-29 is the Monday of 2009-W01, 2010-01-03 the Sunday of 2009-W53; and leap years of
// the Gregorian calendar: 1900 has no 29 February, 2000 and 2024 have one.
TEST_CASE("working days fall on the weekdays of ISO 8601 and on the leap days of the calendar") {
  using namespace std::chrono;
  const auto first_on = [](unsigned weekday_from_sunday, year_month_day from) {
    WorkCalendar calendar;
    calendar.start = sys_days{from};
    calendar.works[weekday_from_sunday] = true;
    return working_dates(calendar, 1).front();
  };
  CHECK(first_on(1, 2008y / December / 23d) == "2008-12-29");
  CHECK(first_on(0, 2009y / December / 28d) == "2010-01-03");
  CHECK(first_on(4, 1900y / February / 23d) == "1900-03-01");
  CHECK(first_on(2, 2000y / February / 23d) == "2000-02-29");
  CHECK(first_on(4, 2024y / February / 23d) == "2024-02-29");
}

// A common practice figure without source: three joiners with a crane operative and a slinger put up 825 m² of panels
// in 40 working hours, 20.6 m²/h. The cycle of a lift knows nothing of it: minutes, speeds and a crane that lifts six
// hours of eight are assumptions of their own. A quarter either way covers panels near and far, low and high.
TEST_CASE("The cycle of a lift gives the output of a crew that the trade knows") {
  const double known = 825.0 / 40.0;
  for (const double radius_m : {15.0, 30.0, 45.0}) {
    for (const double height_m : {0.0, 12.0, 24.0}) {
      const Panel panel = lifted_panel(radius_m, height_m);
      const Finding time = erection_time(panel, lift_settings());
      REQUIRE(time.verdict == Verdict::information);
      const double output = panel.gross_area_m2() / std::get<double>(time.value) * 6.0 / 8.0;
      INFO(radius_m << " m away, " << height_m << " m up: " << output << " m²/h");
      CHECK(output > 0.75 * known);
      CHECK(output < 1.25 * known);
    }
  }
}
