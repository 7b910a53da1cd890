// Carbon up to the finished wall, for each m² of it.
#pragma once

#include "core/api/finding/finding.h"
#include "plugins/carbon/account/account.h"

namespace panel_dossier::carbon {

/// `carbon.total_per_area`: A1–A5 per m² of net wall area, judged by the project's targets for A1–A3 and A1–A5.
/// The three are the findings of the same panel.
Finding check_total_per_area(const PanelAccount& account, const Finding& a1_a3, const Finding& a4, const Finding& a5);

}  // namespace panel_dossier::carbon
