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

/// `thermal.air_permeability`: Panel_Air.PermeabilityQ50 in m³/(h·m²) against the setting
/// `thermal.design_q50_m3_per_hm2`, else the limit of the jurisdiction. `evidence needed` without a measured value.
Finding check_air_permeability(const Panel& panel, const Settings& settings, const Tables& tables);

/// `thermal.air_permeability` of the project: q_50 of the building against the limit of the jurisdiction, from
/// Panel_Air.PermeabilityQ50 or, with the settings `building.volume_m3` and `building.envelope_area_m2`, from
/// Panel_Air.AirChangeRateN50 of the building (EN ISO 9972:2015). Information while neither is there.
Finding check_building_air(const Project& project, const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::thermal
