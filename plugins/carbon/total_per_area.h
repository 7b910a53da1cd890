// Carbon up to the finished wall, for each m² of it.
#pragma once

#include "core/api/finding.h"
#include "core/api/settings.h"
#include "plugins/carbon/account.h"
#include "plugins/carbon/open_finding.h"

namespace panel_dossier::carbon {

/// `carbon.total_per_area`: A1–A5 per m² of gross wall area, against `carbon.target_a1_a5_kgco2e_per_m2` where set.
/// The three are the findings of the same panel.
Finding check_total_per_area(const PanelAccount& account, const Finding& a1_a3, const Finding& a4, const Finding& a5);

/// Judges `sum_kg` over `area_m2` against the target, adding the steps; for one panel or for the project.
Finding judge_total(OpenFinding& finding, const Settings& settings, double sum_kg, double area_m2);

}  // namespace panel_dossier::carbon
