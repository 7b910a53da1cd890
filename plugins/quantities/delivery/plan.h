// Plans by storey that show which load brings which panel.
#pragma once

#include <vector>

#include "core/api/finding/drawing.h"
#include "plugins/quantities/delivery/report.h"

namespace panel_dossier::quantities {

/// One plan a storey that has panels, each panel a rectangle with the hatch of its load and the load's number outside
/// it; below it a legend of the storey's loads. Rectangles are at least a twentieth of the plan thick; hatches repeat
/// after the ninth load.
std::vector<Drawing> storey_plans(const DeliveryList& list);

}  // namespace panel_dossier::quantities
