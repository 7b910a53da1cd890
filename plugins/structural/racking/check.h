// Findings on the bracing action of a panel and the fixings of its sheathing.
#pragma once

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/racking/design.h"

namespace panel_dossier::structural {

/// structural.racking: Fv,Ed against Fv,Rd in kN; `information` for a panel that is no part of the bracing.
Finding racking(const Panel& panel, const StudDesign& design, const RackingDesign& racking);

/// structural.sheathing_fixings: force on one fastener against its resistance in N, with the six failure modes and the
/// spacings and edge distances. Precondition: the panel is load-bearing.
Finding sheathing_fixings(const Panel& panel, const StudDesign& design, const RackingDesign& racking);

}  // namespace panel_dossier::structural
