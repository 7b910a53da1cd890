// What no project can hold, wherever it comes from: numbers that are none, buildings beyond the horizon, endless texts.
#pragma once

#include "core/api/model/project.h"
#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

/// An error for every number of the model or of its properties that is not finite, every size of more than 100 km,
/// every place further than 100,000 km from the project's origin, and every text that is longer than
/// core/intake/document/text_limit.h allows. To be asked before anything is worked out from the project.
void refuse_impossible(const Project& project, Reporter& report);

}  // namespace panel_dossier
