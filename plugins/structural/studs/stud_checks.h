// The checks of studs and posts: bending, stability, shear, deflection, and working together with their sheets.
#pragma once

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

extern const CheckDeclaration kStudBendingCheck;
extern const CheckDeclaration kStudStabilityCheck;
extern const CheckDeclaration kStudShearCheck;
extern const CheckDeclaration kDeflectionCheck;
extern const CheckDeclaration kCompositeActionCheck;

/// σm,y,d against fm,y,d in N/mm², or with sheets σm,2 + σ2·fm,d/ft,0,d.
Finding stud_bending(const Panel& panel, const StudDesign& design);

/// The largest sum of expressions (6.19), (6.23), (6.24) and (6.35), at most 1.
Finding stud_stability(const Panel& panel, const StudDesign& design);

/// τd against fv,d in N/mm².
Finding stud_shear(const Panel& panel, const StudDesign& design);

/// Final deflection in mm at most span / ratio.
Finding deflection(const Panel& panel, const StudDesign& design, const Settings& settings, const Tables& tables);

/// The largest utilisation of stud, sheet and fastener, at most 1. Precondition: the settings ask for it.
Finding composite_action(const Panel& panel, const StudDesign& design);

}  // namespace panel_dossier::structural
