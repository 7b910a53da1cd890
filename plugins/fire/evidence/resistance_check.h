// fire.resistance_integrity_insulation, fire.resistance_load_bearing and fire.penetration_seals: what test evidence
// shows against the class that is required.
#pragma once

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/fire/calculation/cassette.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

extern const CheckDeclaration kSeparatingResistanceCheck;
extern const CheckDeclaration kLoadBearingResistanceCheck;
extern const CheckDeclaration kPenetrationSealsCheck;

/// EI required against EI shown by test; the separating function to EN 1995-1-2 annex E stands beside it as steps.
Finding integrity_and_insulation(const Panel& panel, const Project& project, const Settings& settings,
                                 const Tables& tables, const Cassette& cassette);

/// R required against R shown by test; charring and the reduced cross-section to EN 1995-1-2 stand beside it as steps.
/// Information when the panel carries no load and no R is required.
Finding load_bearing_capacity(const Panel& panel, const Project& project, const Settings& settings,
                              const Tables& tables, const Cassette& cassette);

/// Openings of the panel that nothing fills, as penetrations whose seals must reach the panel's class.
Finding penetration_seals(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::fire
