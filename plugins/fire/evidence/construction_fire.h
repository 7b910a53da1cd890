// fire.during_construction: what in a panel can burn while the building is put up, and what covers it when.
#pragma once

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"

namespace panel_dossier::fire {

/// Mass by reaction to fire class; combustible is everything that is not A1 or A2 or has no class. Information, in
/// kg of combustible mass per m² of face; not assessed when a part has no mass.
Finding construction_fire(const Panel& panel, const Project& project);

/// The same by storey.
Finding project_construction_fire(const Project& project);

}  // namespace panel_dossier::fire
