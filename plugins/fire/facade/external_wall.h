// fire.external_wall_material.
#pragma once

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// Classes of the wall's materials against the rule of external_walls.csv for jurisdiction, use, height and boundary;
/// where the table has none, of the external surface against setting fire.external_wall_class. Not assessed where
/// neither says what is asked. A membrane outermost is no external surface: the class of the outer leaf over it is then
/// Panel_Construction.OuterLeafReactionToFire.
Finding external_wall_material(const Panel& panel, const Project& project, const Settings& settings,
                               const Tables& tables);

}  // namespace panel_dossier::fire
