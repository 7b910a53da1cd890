// Reaction to fire of the layers: fire.reaction_to_fire and fire.external_wall_material.
#pragma once

#include "core/api/finding.h"
#include "core/api/project.h"
#include "core/api/settings.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// Classes of the inner and outer surface, with a table of every layer. Information; `not assessed` names the material
/// that has no class.
Finding reaction_to_fire(const Panel& panel, const Project& project);

/// Classes against external_walls.csv by jurisdiction, use, height and boundary. Information where the table has no
/// rule.
Finding external_wall_material(const Panel& panel, const Project& project, const Settings& settings,
                               const Tables& tables);

}  // namespace panel_dossier::fire
