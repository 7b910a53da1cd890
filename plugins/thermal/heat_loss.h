// Heat transfer coefficient of a panel with its windows and doors.
#pragma once

#include "core/api/finding.h"
#include "core/api/panel.h"
#include "plugins/thermal/transmittance.h"

namespace panel_dossier::thermal {

/// `thermal.heat_loss` in W/K: U·A of the net area and of each window and door (EN ISO 13789:2017, 7.2, without linear
/// and point transmittances).
Finding check_heat_loss(const Panel& panel, const TransmittanceResult& panel_transmittance);

}  // namespace panel_dossier::thermal
