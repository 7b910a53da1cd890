// Reaction to fire of the layers: fire.reaction_to_fire.
#pragma once

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"

namespace panel_dossier::fire {

/// Classes of the inner and outer surface, with a table of every layer. Information; `not assessed` names the material
/// that has no class.
Finding reaction_to_fire(const Panel& panel, const Project& project);

}  // namespace panel_dossier::fire
