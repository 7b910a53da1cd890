// Net measures of one part: one rule for the take-off and for costs.
#pragma once

#include "core/api/model/part.h"
#include "plugins/quantities/cutting/cut_parts.h"

namespace panel_dossier::quantities {

/// m³: as the part is, else of its blank.
double net_volume_m3(const CutPart& cut, const Part& part);

/// Length in m of a framing member; area of the face in m², openings left out, of any other part.
double net_measure(const CutPart& cut, const Part& part);

}  // namespace panel_dossier::quantities
