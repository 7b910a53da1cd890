// Deliveries as tables; loaded vehicles and the storeys that they supply, drawn.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "plugins/quantities/delivery/packing.h"

namespace panel_dossier::quantities {

/// Days as `YYYY-MM-DD`; empty when there is no programme.
struct DeliveryDates {
  std::vector<std::string> erected;  ///< by panel of the project
  std::vector<std::string> arrives;  ///< by load
};

struct DeliveryList {
  const Project& project;
  std::vector<DeliveryItem> items;  ///< in the order of erection
  std::vector<Load> loads;          ///< of the items
  DeliveryDates dates;
};

/// One row a load: what it weighs, what its axles carry, when it arrives and when its first panel is erected.
Table load_table(const DeliveryList& list);
/// One row a load: mass on either side of the bed, and where the panels' centre of gravity lies across and above it.
Table balance_table(const DeliveryList& list, const Vehicle& vehicle);
/// The id of the table of panels, from which deliveries.csv is drawn.
inline constexpr const char* kPanelsByLoad = "panels_by_load";
/// One row a panel in the order of erection.
Table panel_table(const DeliveryList& list);

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
