// Reads what the corrections of the U-value need from panel, settings and tables.
#pragma once

#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance/build_up.h"

namespace panel_dossier::thermal {

/// ΔU in W/(m²·K) to add to `u_w_per_m2k` (EN ISO 6946:2017, annex F); 0 when it stays under 3 % of U.
/// Air voids follow the setting `thermal.air_void_level` (0, 1 or 2) in every insulation layer. Fasteners are taken to
/// cross the thickest insulation layer by Panel_Fastener.DepthInInsulation; where that is absent the setting
/// `thermal.fasteners_of_unknown_depth` must be `outside insulation`. Inputs and steps go to `builder`, and what is
/// missing too: the result is then of no use.
double read_correction(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                       const BuildUp& build_up, double u_w_per_m2k, FindingBuilder& builder);

}  // namespace panel_dossier::thermal
