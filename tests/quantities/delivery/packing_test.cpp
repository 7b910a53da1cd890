#include "plugins/quantities/delivery/packing.h"

#include <catch2/catch.hpp>
#include <random>
#include <string>
#include <vector>

using namespace panel_dossier::quantities;

namespace {

Vehicle trailer() {
  Vehicle vehicle;
  vehicle.bed_length = 13'600'000;
  vehicle.bed_width = 2'480'000;
  vehicle.height = 4'050'000;
  vehicle.rack_base = 150'000;
  vehicle.spacer = 100'000;
  vehicle.payload = milligrams(24000.0);
  vehicle.racks = milligrams(1500.0);
  vehicle.kingpin_m = 1.65;
  vehicle.axle_group_m = 9.35;
  vehicle.kingpin_limit_kg = 11000.0;
  vehicle.axle_group_limit_kg = 18000.0;
  return vehicle;
}

DeliveryItem item(double length_m, double thickness_m, double mass_kg) {
  return {
      0, micrometres(length_m), 2'700'000, micrometres(thickness_m), micrometres(length_m / 2.0), milligrams(mass_kg)};
}

std::vector<DeliveryItem> random_items(unsigned seed, std::size_t count) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> length(2.0, 12.0);
  std::uniform_real_distribution<double> thickness(0.15, 0.4);
  std::uniform_real_distribution<double> mass(200.0, 4000.0);
  std::vector<DeliveryItem> items;
  while (items.size() < count) {
    const DeliveryItem next = item(length(random), thickness(random), mass(random));
    if (fits_alone(next, trailer()).empty()) items.push_back(next);
  }
  return items;
}

/// No two panels of a row stand nearer than the spacer.
bool rows_are_clear(const Load& load, const std::vector<DeliveryItem>& items, Micrometres spacer) {
  for (const PlacedItem& one : load.items) {
    for (const PlacedItem& other : load.items) {
      if (one.row != other.row || one.item == other.item || one.front > other.front) continue;
      if (one.front + items[one.item].length + spacer > other.front) return false;
    }
  }
  return true;
}

}  // namespace

// Half of the seeds with panels lifted out upwards.
TEST_CASE("every item is in one load, in order, within the bed, the payload and the axle limits") {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    Vehicle vehicle = trailer();
    vehicle.lifted_out_upwards = seed % 2 == 0;
    const std::vector<DeliveryItem> items = random_items(seed, 150);
    const std::vector<Load> loads = pack_loads(items, vehicle);
    std::size_t next = 0;
    Milligrams mass = 0;
    for (const Load& load : loads) {
      Milligrams of_load = 0;
      for (std::size_t i = 0; i < load.items.size(); ++i) {
        const PlacedItem& placed = load.items[i];
        REQUIRE(placed.item == next++);
        of_load += items[placed.item].mass;
        CHECK(load.rows[placed.row] >= items[placed.item].thickness);
        CHECK(load.set_back + placed.front + items[placed.item].length <= vehicle.bed_length);
        if (i == 0 || load.rearranged) continue;
        const PlacedItem& before = load.items[i - 1];
        // What is needed sooner stands nearer to the unloading side, or in the same row with a spacer between.
        const bool new_row = placed.row == before.row + 1 && placed.front == 0;
        const bool behind =
            placed.row == before.row && placed.front == before.front + items[before.item].length + vehicle.spacer;
        CHECK((new_row || behind));
      }
      CHECK(of_load == load.mass);
      CHECK(load.mass + vehicle.racks <= vehicle.payload);
      CHECK(rows_width(load, vehicle) <= vehicle.bed_width);
      CHECK(carries(load.shares, vehicle));
      CHECK(rows_are_clear(load, items, vehicle.spacer));
      CHECK((vehicle.lifted_out_upwards || lifted_over_others(load, items).empty()));
      mass += load.mass;
    }
    CHECK(next == items.size());
    Milligrams of_items = 0;
    for (const DeliveryItem& each : items) of_items += each.mass;
    CHECK(mass == of_items);
    CHECK(load_bounds(items, vehicle).least() <= loads.size());
  }
}

TEST_CASE("a heavy short row is set back as far as the kingpin needs and no step further") {
  Vehicle vehicle = trailer();
  vehicle.racks = 0;
  // 15 t at 1.5 m put 15·(9.35 − 1.5)/7.7 = 15.29 t on the kingpin; 11 t allow a centre at 9.35 − 11·7.7/15 = 3.703 m.
  const std::vector<Load> loads = pack_loads({item(3.0, 0.3, 15000.0)}, vehicle);
  REQUIRE(loads.size() == 1);
  CHECK(loads[0].set_back == 2'210'000);
  CHECK(loads[0].shares.kingpin_kg <= 11000.0);
  CHECK(axle_shares(15000.0, 1.5 + 2.20, vehicle).kingpin_kg > 11000.0);
}

TEST_CASE("axle limits that no place on the bed keeps close the load") {
  Vehicle vehicle = trailer();
  // Both together take 14 t: racks of 1.5 t and three panels of 4 t, but not a fourth.
  vehicle.kingpin_limit_kg = 5000.0;
  vehicle.axle_group_limit_kg = 9000.0;
  const std::vector<DeliveryItem> items(4, item(6.0, 0.3, 4000.0));
  const std::vector<Load> loads = pack_loads(items, vehicle);
  REQUIRE(loads.size() == 2);
  CHECK(loads[0].items.size() == 3);
  CHECK(loads[0].set_back > 0);
  CHECK(loads[1].items.size() == 1);
}

TEST_CASE("what the vehicle cannot carry is named with its measure") {
  const Vehicle vehicle = trailer();
  CHECK(fits_alone(item(3.0, 0.3, 500.0), vehicle).empty());
  CHECK(fits_alone(item(14.0, 0.3, 500.0), vehicle) ==
        "is 14.000 m long and the load bed 13.600 m: choose a longer vehicle or divide the panel");
  DeliveryItem high = item(6.0, 0.3, 500.0);
  high.height = 3'900'001;
  CHECK(fits_alone(high, vehicle).find("on its rack and the route leaves 4.050 m above the deck") != std::string::npos);
  high.height = 3'900'000;
  CHECK(fits_alone(high, vehicle).empty());
  CHECK(fits_alone(item(3.0, 2.6, 500.0), vehicle).find("2.600 m thick") != std::string::npos);
  CHECK(fits_alone(item(3.0, 0.3, 23000.0), vehicle) ==
        "weighs 23000 kg and the vehicle carries 22500 kg beside its racks: choose another vehicle");
  Vehicle weak = vehicle;
  weak.kingpin_limit_kg = 500.0;
  weak.axle_group_limit_kg = 500.0;
  CHECK(fits_alone(item(3.0, 0.3, 500.0), weak) ==
        "overloads the kingpin or the axle group wherever it stands: choose another vehicle");
}

TEST_CASE("the same items give the same loads") {
  const std::vector<DeliveryItem> items = random_items(3, 80);
  const std::vector<Load> first = pack_loads(items, trailer());
  const std::vector<Load> second = pack_loads(items, trailer());
  REQUIRE(first.size() == second.size());
  for (std::size_t i = 0; i < first.size(); ++i) {
    CHECK(first[i].items.size() == second[i].items.size());
    CHECK(first[i].centre_m == second[i].centre_m);
  }
}

TEST_CASE("nothing needs no load") {
  CHECK(pack_loads({}, trailer()).empty());
  CHECK(load_bounds({}, trailer()).least() == 0);
}
