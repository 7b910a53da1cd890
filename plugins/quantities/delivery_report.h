// Deliveries as tables.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding.h"
#include "core/api/project.h"
#include "plugins/quantities/delivery_packing.h"

namespace panel_dossier::quantities {

struct DeliveryList {
  const Project& project;
  std::vector<DeliveryItem> items;        ///< in the order of erection
  std::vector<Load> loads;                ///< of the items
  const std::vector<std::string>& dates;  ///< of erection by panel; empty when there is no programme
};

/// One row a load: what it weighs, what its axles carry and the day on which its first panel is erected.
Table load_table(const DeliveryList& list);
/// `Panels by load`: one row a panel in the order of erection. The pipeline writes deliveries.csv from it.
Table panel_table(const DeliveryList& list);

/// The day of erection, or `not planned`.
std::string date_of(const DeliveryList& list, std::size_t panel);

}  // namespace panel_dossier::quantities
