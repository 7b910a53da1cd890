// The vehicle that brings panels to the site and what its axles carry; packing panels on it in the order of erection,
// and how the loads balance.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
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
  /// Panels are lifted out of their racks upwards, so that one may stand before another that is needed sooner.
  bool lifted_out_upwards = false;
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

/// A panel as it travels: upright along the bed, on its foot or on its left edge.
struct DeliveryItem {
  std::size_t panel = 0;  ///< index into Project::panels
  Micrometres length = 0;
  Micrometres height = 0;
  Micrometres thickness = 0;
  Micrometres centre = 0;  ///< of gravity, behind its front end
  Milligrams mass = 0;
  Micrometres across = 0;  ///< of gravity, behind the face on the unloading side
  Micrometres rise = 0;    ///< of gravity, above the edge that it stands on
  bool on_foot = true;
};

/// The panel upright on its foot where the vehicle's height allows it, for then nobody has to turn it up on site; else
/// on its longer side. On its foot its left edge, seen from inside, points to the headboard and its inner face to the
/// unloading side; on its left edge its foot points to the headboard and its outer face to the unloading side.
/// `centre_m` is its centre of gravity in its own frame, `index` its place in the project.
DeliveryItem delivery_item(const Panel& panel, std::size_t index, double mass_kg, const Vec3& centre_m,
                           const Vehicle& vehicle);

struct PlacedItem {
  std::size_t item = 0;   ///< index into the items
  std::size_t row = 0;    ///< from 0, the unloading side
  Micrometres front = 0;  ///< its front end behind the head of the row
};

struct Load {
  std::vector<PlacedItem> items;  ///< in the order of erection, which is that of unloading
  std::vector<Micrometres> rows;  ///< thickness of each row: that of its thickest panel
  Micrometres set_back = 0;       ///< of every row from the headboard
  Milligrams mass = 0;            ///< of the panels
  double centre_m = 0.0;          ///< of panels and racks, behind the headboard
  AxleShares shares;              ///< of panels and racks
  bool rearranged = false;        ///< some may stand before others that are needed sooner
};

/// Fills vehicle after vehicle in the order of `items`; within a vehicle row after row from the unloading side, and
/// each row from the headboard backwards. So the panel needed first stands at the outside, none stands before another
/// that is needed sooner, and the vehicle is loaded in reverse. A row, a side of the bed, a payload or an axle limit
/// that is reached closes the row or the load; but where panels are lifted out upwards, those of a load are put into
/// rows anew, the longest or the thickest first (first-fit decreasing), before it is closed. Rows that would overload
/// the kingpin are set back together in steps of 10 mm as far as need be. O(items · items on a vehicle), rows put anew
/// as often again. Precondition: `fits_alone` is empty for each item.
std::vector<Load> pack_loads(const std::vector<DeliveryItem>& items, const Vehicle& vehicle);

/// Items of the load, in the order of erection, that stand behind one that is needed later, seen from the unloading
/// side: they are lifted out over it or drawn past it.
std::vector<std::size_t> lifted_over_others(const Load& load, const std::vector<DeliveryItem>& items);

/// Width of the load's rows with the spacers between them; they stand in the middle of the bed.
Micrometres rows_width(const Load& load, const Vehicle& vehicle);

/// Why the vehicle cannot carry the item even by itself, and what to do; empty when it can.
std::string fits_alone(const DeliveryItem& item, const Vehicle& vehicle);

/// Bounds from below on the number of vehicles, whatever the order and the arrangement.
struct LoadBounds {
  std::size_t by_mass = 0;   ///< L1: total mass over the payload left by the racks
  std::size_t by_floor = 0;  ///< L1 on the floor: Σ(l + s)·(t + s) over (L + s)·(W + s)
  std::size_t by_rows = 0;   ///< L2 on the lengths in rows, over the rows that the thinnest panel allows

  std::size_t least() const;
};

LoadBounds load_bounds(const std::vector<DeliveryItem>& items, const Vehicle& vehicle);

/// Of the panels of one load; the racks are not in it.
struct LoadBalance {
  Milligrams unloading_side = 0;  ///< nearer to the unloading side than the bed's middle
  Milligrams far_side = 0;        ///< the rest
  double offset_m = 0.0;          ///< centre of gravity from the bed's middle, positive to the far side
  double rise_m = 0.0;            ///< centre of gravity above the deck

  /// The difference between the sides as a share of both, from 0 to 1.
  double difference() const;
};

/// Rows stand in the middle of the bed, each panel against its row's face on the unloading side. A panel over the
/// bed's middle counts on each side by its thickness there. Precondition: the load is not empty.
LoadBalance balance_of(const Load& load, const std::vector<DeliveryItem>& items, const Vehicle& vehicle);

/// Where each row begins, from the unloading side of the bed.
std::vector<Micrometres> row_edges(const Load& load, const Vehicle& vehicle);

}  // namespace panel_dossier::quantities
