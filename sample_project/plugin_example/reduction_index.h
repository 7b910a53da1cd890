// `sound.reduction_index`: airborne sound insulation of a panel by the mass law, rated by one number.
#pragma once

#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "rating.h"

namespace sound {

extern const panel_dossier::CheckDeclaration kReductionIndexCheck;

/// Mass law of a limp wall at field incidence: R = 20 lg(m' f) − 47 dB, m' in kg/m², f in Hz.
double mass_law_db(double surface_mass_kg_per_m2, double frequency_hz);

/// Named values: `surface_mass` in kg/m², `r_w` by the mass law, `c` and `c_tr` in dB.
panel_dossier::Finding reduction_index(const panel_dossier::Panel& panel, const panel_dossier::Project& project,
                                       const panel_dossier::Settings& settings, const std::vector<Band>& bands);

}  // namespace sound
