// fire.reaction_to_fire and fire.during_construction: what of a panel can burn, on its faces and in all.
#pragma once

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier::fire {

extern const CheckDeclaration kReactionToFireCheck;
extern const CheckDeclaration kDuringConstructionCheck;

/// Classes of the inner and outer surface, with a table of every layer. Information; evidence needed names each
/// material that has no class, and what is wrong with the documents behind the classes.
Finding reaction_to_fire(const Panel& panel, const Project& project, const Settings& settings);

/// Mass by reaction to fire class while the building is put up, and what covers it when; combustible is everything that
/// is not A1 or A2 or has no class. Information, in kg of combustible mass per m² of face; not assessed when a part has
/// no mass.
Finding construction_fire(const Panel& panel, const Project& project);

/// The same by storey.
Finding project_construction_fire(const Project& project);

}  // namespace panel_dossier::fire
