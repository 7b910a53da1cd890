// The findings on a panel's studs: bending, stability, shear and deflection of the governing member.
#pragma once

#include "core/api/finding.h"
#include "core/api/project.h"
#include "core/api/settings.h"
#include "plugins/structural/stud_design.h"

namespace panel_dossier::structural {

/// structural.stud_bending: σm,y,d against fm,y,d in N/mm², EN 1995-1-1 6.1.6.
Finding stud_bending(const Panel& panel, const StudDesign& design);

/// structural.stud_stability: the largest sum of expressions (6.19), (6.23), (6.24) and (6.35), at most 1.
Finding stud_stability(const Panel& panel, const StudDesign& design);

/// structural.stud_shear: τd against fv,d in N/mm², EN 1995-1-1 6.1.7.
Finding stud_shear(const Panel& panel, const StudDesign& design);

/// structural.deflection: instantaneous deflection in mm at most span / structural.deflection_limit_ratio.
Finding deflection(const Panel& panel, const StudDesign& design, const Settings& settings);

}  // namespace panel_dossier::structural
