// Whether a panel fits the vehicle.
#pragma once

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier::structural {

/// `structural.transport_size`: the largest share of the vehicle's length, height and payload that the panel takes,
/// standing upright on its long side. Limits from the settings `structural.transport.*`.
Finding transport_size(const Panel& panel, const Project& project, const Settings& settings);

}  // namespace panel_dossier::structural
