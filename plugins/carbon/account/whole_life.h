// Carbon over the whole life of a panel, by module, by material and for each m² of wall.
#pragma once

#include "core/api/finding/finding.h"
#include "plugins/carbon/account/account.h"

namespace panel_dossier::carbon {

/// `carbon.whole_life`: GWP-total of A to C per m² of net wall area, judged by the project's targets for A–C, with the
/// account by module and by material; D stands in the tables apart. `upstream` is the finding b4 of the same panel,
/// which rests on all the others.
Finding check_whole_life(const PanelAccount& account, const Finding& upstream);

}  // namespace panel_dossier::carbon
