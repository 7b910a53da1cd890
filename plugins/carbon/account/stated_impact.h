// What the export itself states of a panel's climate impact, in the standard's sets of environmental impact.
#pragma once

#include <vector>

#include "core/api/finding/check_declaration.h"
#include "plugins/carbon/account/account.h"

namespace panel_dossier::carbon {

/// The properties that `compare_stated_impact` reads, all of them optional.
std::vector<CheckInput> stated_impact_inputs();

/// Compares Pset_EnvironmentalImpactValues.ClimateChange of the panel, and what
/// Pset_EnvironmentalImpactIndicators.ClimateChangePerUnit makes for it, with the account's product stage, GWP-fossil
/// and GWP-luluc or GWP-total. What differs from both becomes missing, with both sources. Nothing is used instead of
/// the account. What is said of another phase of the life cycle is noted and not compared.
void compare_stated_impact(const PanelAccount& account, const Gwp& product_stage, OpenFinding& finding);

}  // namespace panel_dossier::carbon
