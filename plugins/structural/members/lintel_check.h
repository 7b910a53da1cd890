// Lintels and trimmers round the openings of a panel.
#pragma once

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

/// structural.lintel_bending: the largest share of bending or shear resistance or of the deflection limit, at most 1.
/// Precondition: the panel has openings.
Finding lintel_bending(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                       const StudDesign& design);

}  // namespace panel_dossier::structural
