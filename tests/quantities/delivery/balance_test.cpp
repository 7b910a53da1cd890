#include <catch2/catch.hpp>
#include <vector>

#include "plugins/quantities/delivery/packing.h"
#include "tests/quantities/delivery_site.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

/// A bed of 2 m by 10 m on which a panel of any height stands 0.2 m above the deck.
Vehicle small_bed(double height_m) {
  Vehicle vehicle;
  vehicle.bed_length = 10'000'000;
  vehicle.bed_width = 2'000'000;
  vehicle.height = micrometres(height_m);
  vehicle.rack_base = 200'000;
  vehicle.spacer = 100'000;
  vehicle.payload = milligrams(20000.0);
  vehicle.axle_group_m = 10.0;
  vehicle.kingpin_limit_kg = 20000.0;
  vehicle.axle_group_limit_kg = 20000.0;
  return vehicle;
}

DeliveryItem whole_row(double thickness_m, double mass_kg, double rise_m) {
  DeliveryItem item;
  item.length = 10'000'000;
  item.height = 2'000'000;
  item.thickness = micrometres(thickness_m);
  item.centre = 5'000'000;
  item.mass = milligrams(mass_kg);
  item.across = micrometres(thickness_m / 2.0);
  item.rise = micrometres(rise_m);
  return item;
}

DeliveryItem item_at(double width_m, double height_m, double route_m) {
  Panel panel;
  panel.width_m.value = width_m;
  panel.height_m.value = height_m;
  panel.thickness_m.value = 0.3;
  return delivery_item(panel, 0, 500.0, {1.1, 0.1, 1.4}, small_bed(route_m));
}

}  // namespace

TEST_CASE("two rows stand on either side of the middle") {
  // 0.4 + 0.1 + 0.2 m of rows in 2 m: edges at 0.65 m and 1.15 m. The middle, at 1 m, lies 0.35 m inside the first.
  const std::vector<DeliveryItem> items{whole_row(0.4, 800.0, 1.0), whole_row(0.2, 300.0, 1.5)};
  const std::vector<Load> loads = pack_loads(items, small_bed(4.0));
  REQUIRE(loads.size() == 1);
  CHECK(row_edges(loads[0], small_bed(4.0)) == std::vector<Micrometres>{650'000, 1'150'000});
  const LoadBalance balance = balance_of(loads[0], items, small_bed(4.0));
  CHECK(balance.unloading_side == milligrams(700.0));
  CHECK(balance.far_side == milligrams(400.0));
  CHECK(balance.difference() == Approx(300.0 / 1100.0).epsilon(1e-12));
  // Σ m·y = 800·(0.85 − 1) + 300·(1.25 − 1); Σ m·z = 800·1.2 + 300·1.7.
  CHECK(balance.offset_m == Approx((-120.0 + 75.0) / 1100.0).epsilon(1e-12));
  CHECK(balance.rise_m == Approx((960.0 + 510.0) / 1100.0).epsilon(1e-12));
}

TEST_CASE("a single row stands on the middle and is in balance") {
  const std::vector<DeliveryItem> items{whole_row(0.3, 500.0, 1.0)};
  const Vehicle vehicle = small_bed(4.0);
  const LoadBalance balance = balance_of(pack_loads(items, vehicle).front(), items, vehicle);
  CHECK(balance.unloading_side == balance.far_side);
  CHECK(balance.offset_m == Approx(0.0).margin(1e-12));
}

TEST_CASE("a panel stands on its foot where the route allows it") {
  const DeliveryItem item = item_at(2.0, 3.0, 3.2);
  CHECK(item.on_foot);
  CHECK(item.length == 2'000'000);
  CHECK(item.height == 3'000'000);
  CHECK(item.centre == 1'100'000);
  CHECK(item.rise == 1'400'000);
  CHECK(item.across == 100'000);
}

TEST_CASE("a panel too high for the route on its foot stands on its left edge with its foot to the headboard") {
  const DeliveryItem item = item_at(2.0, 3.0, 3.199999);
  CHECK_FALSE(item.on_foot);
  CHECK(item.length == 3'000'000);
  CHECK(item.height == 2'000'000);
  CHECK(item.centre == 1'400'000);
  CHECK(item.rise == 1'100'000);
  // Its outer face looks to the unloading side.
  CHECK(item.across == 200'000);
}

TEST_CASE("a panel wider than it is high is never lower on its edge") {
  CHECK(item_at(4.0, 3.5, 3.0).on_foot);
}
