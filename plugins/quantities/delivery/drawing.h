// Loaded vehicles and the storeys that they supply, drawn.
#pragma once

#include <vector>

#include "core/api/finding/drawing.h"
#include "plugins/quantities/delivery/report.h"

namespace panel_dossier::quantities {

/// Every row of the load from the unloading side, up to three rows abreast, the headboard at the left; each panel with
/// its place in the load and its mark. `index` counts `list.loads` from 0.
Drawing load_side_views(const DeliveryList& list, std::size_t index, const Vehicle& vehicle);

/// The same load from above, the unloading side below, with kingpin, axle group and centre of gravity.
Drawing load_plan(const DeliveryList& list, std::size_t index, const Vehicle& vehicle);

/// One plan a storey that has panels, each panel a rectangle with the hatch of its load and the load's number outside
/// it; below it a legend of the storey's loads. Rectangles are at least a twentieth of the plan thick; hatches repeat
/// after the ninth load.
std::vector<Drawing> storey_plans(const DeliveryList& list);

}  // namespace panel_dossier::quantities
