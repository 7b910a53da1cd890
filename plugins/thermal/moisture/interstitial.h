// Condensation inside of a panel over the year.
#pragma once

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance/transmittance.h"

namespace panel_dossier::thermal {

extern const CheckDeclaration kInterstitialCondensationCheck;

/// `thermal.interstitial_condensation` (EN ISO 13788:2012, 6), judged in the largest section. The value is the most
/// condensate held at the end of any month, all planes together. Passes when nothing condenses, or when all of it dries
/// within the year and the value is at most the row of condensate_limits.csv that `thermal.condensate_limit` names;
/// without that setting such a result is information. Fails when some is left after twelve months.
Finding check_interstitial_condensation(const Panel& panel, const Project& project, const Settings& settings,
                                        const Tables& tables, const TransmittanceResult& panel_transmittance);

}  // namespace panel_dossier::thermal
