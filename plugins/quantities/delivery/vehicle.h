// The vehicle that brings panels to the site, and what its axles carry.
#pragma once

#include <cstdint>
#include <optional>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/settings.h"
#include "plugins/quantities/cutting/cut_parts.h"

namespace panel_dossier::quantities {

/// Whole milligrams, so that sums and comparisons with a limit are exact.
using Milligrams = std::int64_t;

constexpr double kilograms(Milligrams value) {
  return static_cast<double>(value) / 1.0e6;
}
/// `value_kg` in kg; magnitude below 9·10⁶ t.
Milligrams milligrams(double value_kg);

/// A semi-trailer. Distances along the bed are measured from the headboard backwards.
struct Vehicle {
  Micrometres bed_length = 0;
  Micrometres bed_width = 0;
  Micrometres height = 0;            ///< that the route leaves above the deck
  Micrometres rack_base = 0;         ///< of the rack under the panels
  Micrometres spacer = 0;            ///< clear between neighbouring panels, along and across
  Milligrams payload = 0;            ///< racks included
  Milligrams racks = 0;              ///< mass of the racks, taken at the middle of the bed
  double kingpin_m = 0.0;            ///< place of the kingpin; less than that of the axle group
  double axle_group_m = 0.0;         ///< place of the axle group's middle
  double kingpin_limit_kg = 0.0;     ///< of the load's share
  double axle_group_limit_kg = 0.0;  ///< of the load's share
  /// Greatest difference between the masses on the two sides of the bed, as a share of both; none when not given.
  std::optional<double> side_balance_limit;
};

/// Reads `structural.transport.*` and `quantities.transport.*` as inputs of the finding; notes what is missing or
/// cannot be used.
Vehicle read_vehicle(FindingBuilder& finding, const Settings& settings);

/// The load's shares of mass on its two supports, in kg.
struct AxleShares {
  double kingpin_kg = 0.0;  ///< negative when the load lies behind the axle group
  double axle_group_kg = 0.0;
};

/// Law of the lever for a load of `mass_kg` whose centre lies `centre_m` behind the headboard.
AxleShares axle_shares(double mass_kg, double centre_m, const Vehicle& vehicle);

/// Both shares within their limits, and none lifted.
bool carries(const AxleShares& shares, const Vehicle& vehicle);

}  // namespace panel_dossier::quantities
