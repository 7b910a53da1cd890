// The erection programme of the project, day by day.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/plugin.h"
#include "plugins/quantities/delivery/report.h"
#include "plugins/quantities/programme/order.h"

namespace panel_dossier::quantities {

extern const CheckDeclaration kProgrammeCheck;

struct Programme {
  Finding finding;      ///< `quantities.programme`: working days
  DeliveryDates dates;  ///< empty when the finding is not assessed
  /// Largest gross area of panels that wait on site in an evening; none without a programme or deliveries.
  std::optional<double> most_waiting_m2;
};

extern const CheckDeclaration kSiteStorageCheck;

/// Whether the settings say how much the site can store, `quantities.site_storage_m2`.
bool storage_limited(const Settings& settings);

/// `most_waiting_m2` of the programme at most the area that the site can store.
Finding site_storage(const Programme& programme, const Settings& settings);

/// Panels in the given sequence on the cranes and working days of the settings, from the hours that
/// `quantities.erection_time` gave each panel. `loads` is by panel of the project; empty when they are not known.
Programme plan_programme(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                         const ErectionSequence& sequence, const std::vector<std::size_t>& loads);

}  // namespace panel_dossier::quantities
