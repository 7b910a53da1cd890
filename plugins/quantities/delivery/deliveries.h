// The deliveries of the project.
#pragma once

#include <cstddef>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/plugin.h"
#include "plugins/quantities/delivery/report.h"
#include "plugins/quantities/programme/order.h"

namespace panel_dossier::quantities {

extern const CheckDeclaration kDeliveriesCheck;

/// Loads whose dates the programme has yet to give.
struct DeliveryPlan {
  FindingBuilder finding;  ///< `incomplete()` when no loads could be planned
  Vehicle vehicle;
  std::vector<DeliveryItem> items;  ///< in the order of erection
  std::vector<Load> loads;
};

/// Packs the panels in the given sequence. Masses and centres of gravity are those of the panels' own findings.
DeliveryPlan plan_deliveries(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                             const ErectionSequence& sequence);

/// By panel of the project, the load that brings it, from 0; empty when no loads could be planned.
std::vector<std::size_t> load_of_panels(const DeliveryPlan& plan);

/// `quantities.deliveries`: number of vehicle loads, with tables of loads and panels, pictures of the first loads and
/// plans by storey.
Finding report_deliveries(DeliveryPlan plan, const Project& project, DeliveryDates dates);

/// The findings of the site: `quantities.records` where a panel has or should have a day of installation, then
/// `quantities.deliveries` and `quantities.programme`.
CheckOutcome site_findings(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings);

}  // namespace panel_dossier::quantities
