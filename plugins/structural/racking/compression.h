// What the bracing action of a load-bearing panel presses into the studs at the ends of its sheathing.
#pragma once

#include "core/api/model/panel.h"
#include "plugins/structural/racking/design.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

/// Adds to the design, for every combination with wind, one with Fi,c,Ed of EN 1995-1-1 (9.23) in the studs at vertical
/// edges of the sheathing; where strips meet, pull and push are set off. The racking load is wind and takes its
/// factors. What stands in the way goes to StudDesign::racking_missing. Precondition: `design.missing` is empty.
void add_racking_compression(StudDesign& design, const RackingDesign& racking);

}  // namespace panel_dossier::structural
