// Where the load's mass lies across the bed and above it.
#pragma once

#include <vector>

#include "plugins/quantities/delivery/packing.h"

namespace panel_dossier::quantities {

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
