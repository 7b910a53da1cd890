// Carbon over the whole life, by module, by material and for each m² of wall.
#pragma once

#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/plugin.h"
#include "plugins/carbon/account/account.h"

namespace panel_dossier::carbon {

extern const CheckDeclaration kWholeLifeCheck;

/// GWP-total of A to C per m² of net wall area, judged by the project's targets for A–C, with the account by module and
/// by material; D stands in the tables apart. `upstream` is the finding b4 of the same panel, which rests on all the
/// others.
Finding check_whole_life(const PanelAccount& account, const Finding& upstream);

/// The sum of the panels' tables, a table by panel type, and two bar charts.
Finding whole_life_of_project(const RunInputs& inputs, const std::vector<PanelFindings>& panels);

}  // namespace panel_dossier::carbon
