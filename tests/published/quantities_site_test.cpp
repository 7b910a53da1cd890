// Vehicle loads, axles and site output against figures from outside the project.
#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "plugins/quantities/delivery/packing.h"
#include "plugins/quantities/programme/programme_schedule.h"
#include "tests/quantities/delivery_site.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

/// A bed of 10 m by one row, without spacers and racks, on supports at its ends.
Vehicle plain_bed() {
  Vehicle vehicle;
  vehicle.bed_length = 10'000'000;
  vehicle.bed_width = 300'000;
  vehicle.height = 4'000'000;
  vehicle.payload = milligrams(100.0);
  vehicle.kingpin_m = 0.0;
  vehicle.axle_group_m = 10.0;
  vehicle.kingpin_limit_kg = 1000.0;
  vehicle.axle_group_limit_kg = 1000.0;
  return vehicle;
}

DeliveryItem weight(double length_m, double mass_kg) {
  return {0, micrometres(length_m), 1'000'000, 300'000, micrometres(length_m / 2.0), milligrams(mass_kg)};
}

}  // namespace

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

// Instances whose optimum is sure. Items of more than half a bin stand alone: L2 says so and L1 does not. Of items of a
// little more than a third two share a bin and three do not: n/2 bins, while L2 says n/3, the worst that Martello and
// Toth prove for it (section 8.3, from memory).
TEST_CASE("the bounds by rows and floor on instances of known optimum") {
  const std::vector<DeliveryItem> halves(10, weight(5.001, 1.0));
  CHECK(load_bounds(halves, plain_bed()).by_floor == 6);
  CHECK(load_bounds(halves, plain_bed()).by_rows == 10);
  CHECK(pack_loads(halves, plain_bed()).size() == 10);
  const std::vector<DeliveryItem> thirds(12, weight(3.334, 1.0));
  CHECK(load_bounds(thirds, plain_bed()).by_rows == 5);
  CHECK(pack_loads(thirds, plain_bed()).size() == 6);
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

// The law of the lever: Archimedes, On the Equilibrium of Planes, book I, propositions 6 and 7. By hand for a
// semi-trailer with kingpin at 1.5 m and axles at 9.5 m: 6 t at 3 m and 4 t at 9 m balance at (18 + 36)/10 = 5.4 m;
// moments about the axles give 10·(9.5 − 5.4)/8 = 5.125 t on the kingpin and 4.875 t on the axles.
TEST_CASE("kingpin and axles share a load as the lever does") {
  Vehicle vehicle = plain_bed();
  vehicle.bed_length = 12'000'000;
  vehicle.payload = milligrams(24000.0);
  vehicle.kingpin_m = 1.5;
  vehicle.axle_group_m = 9.5;
  vehicle.kingpin_limit_kg = 12000.0;
  vehicle.axle_group_limit_kg = 18000.0;
  const std::vector<Load> loads = pack_loads({weight(6.0, 6000.0), weight(6.0, 4000.0)}, vehicle);
  REQUIRE(loads.size() == 1);
  CHECK(loads[0].centre_m == Approx(5.4).epsilon(1e-12));
  CHECK(loads[0].shares.kingpin_kg == Approx(5125.0).epsilon(1e-12));
  CHECK(loads[0].shares.axle_group_kg == Approx(4875.0).epsilon(1e-12));
}

// A beam on two supports with an overhang, any textbook of statics: with 8 m between the supports and 40 kN at 2 m
// beyond the second, the second carries 40·10/8 = 50 kN and the first is lifted by 40·2/8 = 10 kN.
TEST_CASE("a load behind the axles lifts the kingpin as on an overhanging beam") {
  Vehicle vehicle = plain_bed();
  vehicle.kingpin_m = 1.5;
  vehicle.axle_group_m = 9.5;
  vehicle.axle_group_limit_kg = 6000.0;
  const AxleShares shares = axle_shares(4000.0, 11.5, vehicle);
  CHECK(shares.kingpin_kg == Approx(-1000.0).epsilon(1e-12));
  CHECK(shares.axle_group_kg == Approx(5000.0).epsilon(1e-12));
  CHECK_FALSE(carries(shares, vehicle));
}

// Centroid of an L of two rectangles, any textbook of statics: a leg of 20 by 100 and a foot of 80 by 20 beside it have
// areas of 2000 and 1600 and their centroid at (2000·10 + 1600·60)/3600 = 32.22 from the left and
// (2000·50 + 1600·10)/3600 = 32.22 from below. Here they are two rows of a load, in centimetres.
TEST_CASE("the centre of two rows is the centroid of two rectangles") {
  Vehicle vehicle = plain_bed();
  vehicle.bed_width = 1'000'000;
  vehicle.payload = milligrams(24000.0);
  vehicle.kingpin_limit_kg = vehicle.axle_group_limit_kg = 24000.0;
  const auto row = [](double thickness_m, double height_m, double mass_kg) {
    DeliveryItem item = weight(10.0, mass_kg);
    item.thickness = micrometres(thickness_m);
    item.across = item.thickness / 2;
    item.rise = micrometres(height_m / 2.0);
    return item;
  };
  const std::vector<DeliveryItem> items{row(0.2, 1.0, 2000.0), row(0.8, 0.2, 1600.0)};
  const std::vector<Load> loads = pack_loads(items, vehicle);
  REQUIRE(loads.size() == 1);
  const LoadBalance balance = balance_of(loads[0], items, vehicle);
  CHECK(0.5 + balance.offset_m == Approx(1.16 / 3.6).epsilon(1e-12));
  CHECK(balance.rise_m == Approx(1.16 / 3.6).epsilon(1e-12));
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

// A common practice figure without source: 825 m² of panels stand after 40 working hours of three joiners with a crane
// operative and a slinger, about 20.6 m²/h. Fifty panels of 16.5 m² take 0.8 h each then, ten a day of eight hours, and
// one week of five days; so do sixty of 13.75 m² at two thirds of an hour, twelve a day, which rounding must not upset.
TEST_CASE("825 m² of panels stand after a week of five days") {
  Settings given = site_settings();
  given.set("quantities.crew_area_rate_m2_per_h", 825.0 / 40.0);
  given.set("quantities.crane_hours_per_day", 8.0);
  given.set("quantities.holidays.0", std::string("2026-12-25"));
  for (const auto& [count, height_m] : {std::pair{50, 3.0}, std::pair{60, 2.5}}) {
    INFO(count);
    Project project = numbered_project(count);
    for (Panel& panel : project.panels) {
      panel.width_m.value = 5.5;
      panel.height_m.value = height_m;
    }
    const Finding programme = site_findings_of(project, given).back();
    REQUIRE(programme.verdict == Verdict::information);
    CHECK(std::get<double>(programme.value) == 5.0);
    CHECK(step(programme, "N_min") == 5.0);
    const auto& rows = table_of(programme, "By working day").rows;
    for (const auto& row : rows) CHECK(std::get<double>(row[2]) == count / 5.0);
    CHECK(std::get<std::string>(rows.back()[0]) == "2026-04-10");
  }
}

// The same panels with a crane that lifts six hours of the eight: at best 40/6 = 6.7 days; seven panels of 0.8 h a day
// leave one for the eighth.
TEST_CASE("a crane's hours of lifting bound the day of its crew") {
  Project project = numbered_project(50);
  for (Panel& panel : project.panels) {
    panel.width_m.value = 5.5;
    panel.height_m.value = 3.0;
  }
  Settings given = site_settings();
  given.set("quantities.crew_area_rate_m2_per_h", 825.0 / 40.0);
  const Finding programme = site_findings_of(project, given).back();
  CHECK(step(programme, "N_min") == 7.0);
  CHECK(std::get<double>(programme.value) == 8.0);
}
