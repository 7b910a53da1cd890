// Readings of moisture, temperature and humidity that were taken in panels in use.
#pragma once

#include "core/api/finding/check_declaration.h"
#include "core/api/model/panel.h"
#include "core/api/plugin.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

extern const CheckDeclaration kMoistureInUseCheck;

/// `thermal.moisture_in_use`: the highest of the newest moisture contents of wood by place, in %, against
/// in_use_limits.csv. Evidence is needed where a newest reading cannot be, or two of one place and day differ. Does not
/// apply without readings.
CheckOutcome check_moisture_in_use(const Panel& panel, const Tables& tables);

}  // namespace panel_dossier::thermal
