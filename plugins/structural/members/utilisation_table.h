// How hard every panel is used by every structural check, worst first.
#pragma once

#include <vector>

#include "core/api/plugin.h"

namespace panel_dossier::structural {

/// structural.utilisation, `information`: the largest utilisation of the project, a table of the checks and one of the
/// worst panels. `not assessed` when no check has a utilisation.
Finding utilisation_table(const std::vector<PanelFindings>& panels);

}  // namespace panel_dossier::structural
