// Days that a membrane stood open to the weather between erection and cladding.
#pragma once

#include "core/api/finding/check_declaration.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"

namespace panel_dossier::thermal {

extern const CheckDeclaration kWeatherExposureCheck;

/// `thermal.weather_exposure`: days from Panel_WeatherExposure.From to Until, or to the day of assessment while the
/// membrane is open, against Panel_WeatherExposure.PermittedDays of the material of the outermost membrane and the
/// document behind it. Does not apply without a record of exposure, unless the project keeps such records and the panel
/// is installed: then evidence is needed.
CheckOutcome check_weather_exposure(const Panel& panel, const Project& project, const Settings& settings);

}  // namespace panel_dossier::thermal
