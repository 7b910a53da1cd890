// Vehicle loads, axles and site output against figures from outside the project.
#include <catch2/catch.hpp>
#include <vector>

#include "plugins/quantities/delivery_packing.h"
#include "plugins/quantities/programme_schedule.h"
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

// A common practice figure without source: 825 m² of panels stand after 40 working hours of three joiners with a crane
// operative and a slinger, about 20.6 m²/h. Fifty panels of 16.5 m² take 0.8 h each then, ten a day of eight hours, and
// one week of five days.
TEST_CASE("825 m² of panels stand after a week of five days") {
  Project project = numbered_project(50);
  for (Panel& panel : project.panels) {
    panel.width_m.value = 5.5;
    panel.height_m.value = 3.0;
  }
  Settings given = site_settings();
  given.set("quantities.crew_area_rate_m2_per_h", 825.0 / 40.0);
  given.set("quantities.crane_hours_per_day", 8.0);
  given.set("quantities.holidays.0", std::string("2026-12-25"));
  const Finding programme = site_findings_of(project, given).back();
  REQUIRE(programme.verdict == Verdict::information);
  CHECK(std::get<double>(programme.value) == 5.0);
  const auto& rows = table_of(programme, "By working day").rows;
  for (const auto& row : rows) CHECK(std::get<double>(row[2]) == 10.0);
  CHECK(std::get<std::string>(rows.back()[1]) == "2026-04-10");
}
