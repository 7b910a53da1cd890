// Deliveries as tables.
#pragma once

#include <string>
#include <vector>

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

}  // namespace panel_dossier::quantities
