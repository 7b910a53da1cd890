// Panels as they stand on the vehicle.
#pragma once

#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/finding/panel_values.h"
#include "core/api/model/project.h"
#include "plugins/quantities/delivery/packing.h"

namespace panel_dossier::quantities {

/// The panel upright on its foot where the vehicle's height allows it, for then nobody has to turn it up on site; else
/// on its longer side. On its foot its left edge, seen from inside, points to the headboard and its inner face to the
/// unloading side; on its left edge its foot points to the headboard and its outer face to the unloading side.
/// `mass` and `centre` are the panel's own `quantities.mass` and `quantities.centre_of_gravity`.
DeliveryItem delivery_item(const Panel& panel, std::size_t index, const PanelValue& mass, const PanelValue& centre,
                           const Vehicle& vehicle);

/// One item a panel in the given order; notes the panels that the vehicle cannot carry.
std::vector<DeliveryItem> delivery_items(FindingBuilder& finding, const Project& project, const PanelValues& masses,
                                         const PanelValues& centres, const std::vector<std::size_t>& order,
                                         const Vehicle& vehicle);

}  // namespace panel_dossier::quantities
