// A vehicle and weights on it so simple that loads are worked out by hand.
#pragma once

#include "plugins/quantities/delivery/packing.h"

namespace panel_dossier::quantities::test {

/// A bed of 10 m by one row, without spacers and racks, on supports at its ends.
inline Vehicle plain_bed() {
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

inline DeliveryItem weight(double length_m, double mass_kg) {
  return {0, micrometres(length_m), 1'000'000, 300'000, micrometres(length_m / 2.0), milligrams(mass_kg)};
}

}  // namespace panel_dossier::quantities::test
