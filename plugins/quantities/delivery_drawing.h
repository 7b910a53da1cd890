// A loaded vehicle, drawn.
#pragma once

#include "core/api/drawing.h"
#include "plugins/quantities/delivery_report.h"

namespace panel_dossier::quantities {

/// The load from the unloading side, its first row in front, with kingpin, axle group and centre of gravity; the
/// headboard at the left. `index` counts `list.loads` from 0.
Drawing load_side_view(const DeliveryList& list, std::size_t index, const Vehicle& vehicle);

/// The same load from above with every row, the unloading side below.
Drawing load_plan(const DeliveryList& list, std::size_t index, const Vehicle& vehicle);

}  // namespace panel_dossier::quantities
