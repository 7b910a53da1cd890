// What the findings of all modules share.
#pragma once

#include "core/api/finding/finding.h"
#include "plugins/carbon/account/account.h"
#include "plugins/carbon/account/open_finding.h"

namespace panel_dossier::carbon {

/// Starts a finding of a module: parts without material become missing, and windows and doors are named as left out.
OpenFinding open_module(const PanelAccount& account, std::string check, std::string title, std::string clause);

}  // namespace panel_dossier::carbon
