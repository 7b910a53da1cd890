// Air tightness of the whole building as measured.
#pragma once

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

/// `thermal.air_permeability` of the project: q_50 of the building against the limit of the jurisdiction, from
/// Panel_Air.PermeabilityQ50 or, with the settings `building.volume_m3` and `building.envelope_area_m2`, from
/// Panel_Air.AirChangeRateN50 of the building (EN ISO 9972:2015). Information while neither is there.
Finding check_building_air(const Project& project, const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::thermal
