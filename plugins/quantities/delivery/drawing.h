// A loaded vehicle, drawn.
#pragma once

#include "core/api/finding/drawing.h"
#include "plugins/quantities/delivery/report.h"

namespace panel_dossier::quantities {

/// Every row of the load from the unloading side, up to three rows abreast, the headboard at the left; each panel with
/// its place in the load and its mark. `index` counts `list.loads` from 0.
Drawing load_side_views(const DeliveryList& list, std::size_t index, const Vehicle& vehicle);

/// The same load from above, the unloading side below, with kingpin, axle group and centre of gravity.
Drawing load_plan(const DeliveryList& list, std::size_t index, const Vehicle& vehicle);

}  // namespace panel_dossier::quantities
