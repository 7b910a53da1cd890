// Loads whose bounds, axles and centres are worked out by hand.
#include <catch2/catch.hpp>
#include <vector>

#include "tests/quantities/plain_bed.h"

using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

// Instances whose optimum is sure. Items of more than half a bin stand alone: L2 says so and L1 does not. Of items of a
// little more than a third two share a bin and three do not: n/2 bins, while L2 says n/3, the worst that there is.
TEST_CASE("the bounds by rows and floor on instances of known optimum") {
  const std::vector<DeliveryItem> halves(10, weight(5.001, 1.0));
  CHECK(load_bounds(halves, plain_bed()).by_floor == 6);
  CHECK(load_bounds(halves, plain_bed()).by_rows == 10);
  CHECK(pack_loads(halves, plain_bed()).size() == 10);
  const std::vector<DeliveryItem> thirds(12, weight(3.334, 1.0));
  CHECK(load_bounds(thirds, plain_bed()).by_rows == 5);
  CHECK(pack_loads(thirds, plain_bed()).size() == 6);
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

// Rows of 6 m, 7 m + 3 m as they come, and 4 m left over; 6 m + 4 m and 7 m + 3 m where they are put anew. The 7 m and
// the 3 m then stand behind the 4 m, which is needed after them.
TEST_CASE("panels that are lifted out upwards are put into rows anew before a load is closed") {
  Vehicle vehicle = plain_bed();
  vehicle.bed_width = 700'000;
  const std::vector<DeliveryItem> items{weight(6.0, 1.0), weight(7.0, 1.0), weight(3.0, 1.0), weight(4.0, 1.0)};
  const std::vector<Load> as_they_come = pack_loads(items, vehicle);
  REQUIRE(as_they_come.size() == 2);
  CHECK(lifted_over_others(as_they_come[0], items).empty());
  vehicle.lifted_out_upwards = true;
  const std::vector<Load> anew = pack_loads(items, vehicle);
  REQUIRE(anew.size() == 1);
  CHECK(anew[0].rearranged);
  std::vector<std::size_t> rows;
  std::vector<Micrometres> fronts;
  for (const PlacedItem& placed : anew[0].items) {
    rows.push_back(placed.row);
    fronts.push_back(placed.front);
  }
  CHECK(rows == std::vector<std::size_t>{0, 1, 1, 0});
  CHECK(fronts == std::vector<Micrometres>{0, 0, 7'000'000, 6'000'000});
  CHECK(lifted_over_others(anew[0], items) == std::vector<std::size_t>{1, 2});
}

// Thick and thin by turns, two in a row: side by side they take 0.6 m twice, the thick ones together 0.6 m + 0.3 m.
TEST_CASE("rows put anew hold panels of one thickness where that is what saves width") {
  Vehicle vehicle = plain_bed();
  vehicle.bed_width = 1'000'000;
  vehicle.lifted_out_upwards = true;
  std::vector<DeliveryItem> items(4, weight(5.0, 1.0));
  items[0].thickness = items[2].thickness = 600'000;
  const std::vector<Load> loads = pack_loads(items, vehicle);
  REQUIRE(loads.size() == 1);
  CHECK(loads[0].rows == std::vector<Micrometres>{600'000, 300'000});
}

// What is put anew must be carried like any other load: five of 25 kg are more than 100 kg.
TEST_CASE("rows put anew keep the payload") {
  Vehicle vehicle = plain_bed();
  vehicle.bed_width = 700'000;
  vehicle.lifted_out_upwards = true;
  const std::vector<Load> loads = pack_loads(std::vector<DeliveryItem>(5, weight(4.0, 25.0)), vehicle);
  REQUIRE(loads.size() == 2);
  CHECK(loads[0].items.size() == 4);
}
