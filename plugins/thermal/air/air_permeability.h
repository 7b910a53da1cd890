// Air permeability as measured, of a panel and of the whole building.
#pragma once

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

extern const CheckDeclaration kAirPermeabilityCheck;

/// `thermal.air_permeability`: Panel_Air.PermeabilityQ50 in m³/(h·m²) against the lower of the setting
/// `thermal.design_q50_m3_per_hm2` and the limit of the jurisdiction, of which one may be missing. `evidence needed`
/// without a measured value, and where the document that Panel_Air.DocumentId names is not there.
Finding check_air_permeability(const Panel& panel, const Project& project, const Settings& settings,
                               const Tables& tables);

/// `thermal.air_permeability` of the project: q_50 of the building against the limit of the jurisdiction, from
/// Panel_Air.PermeabilityQ50 or, with the settings `building.volume_m3` and `building.envelope_area_m2`, from
/// Panel_Air.AirChangeRateN50 of the building (EN ISO 9972:2015); the document as above. `evidence needed` while
/// neither is there, not assessed where both are and differ by more than 5 %.
Finding check_building_air(const Project& project, const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::thermal
