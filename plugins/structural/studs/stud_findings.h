// The findings on a panel's studs: bending, stability and shear of the governing member.
#pragma once

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

/// structural.stud_bending: σm,y,d against fm,y,d in N/mm², EN 1995-1-1 6.1.6.
Finding stud_bending(const Panel& panel, const StudDesign& design);

/// structural.stud_stability: the largest sum of expressions (6.19), (6.23), (6.24) and (6.35), at most 1.
Finding stud_stability(const Panel& panel, const StudDesign& design);

/// structural.stud_shear: τd against fv,d in N/mm², EN 1995-1-1 6.1.7.
Finding stud_shear(const Panel& panel, const StudDesign& design);

}  // namespace panel_dossier::structural
