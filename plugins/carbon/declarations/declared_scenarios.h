// A4 and A5 as declarations state them, beside those of the project.
#pragma once

#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/plugin.h"
#include "plugins/carbon/account/open_finding.h"

namespace panel_dossier::carbon {

/// Adds a table with a row for each material of `amounts`, a table of names and amounts in declared units, whose file
/// declares A4 or A5: GWP-total declared, over that amount, and the sum of the panels' own. Nothing without such a row.
/// Figures that are not usable are left out: nothing rests on them.
void add_declared_scenarios(const Project& project, const std::vector<PanelFindings>& panels, const Table& amounts,
                            OpenFinding& finding);

}  // namespace panel_dossier::carbon
