// Where the wood of a panel comes from, as claimed and documented.
#pragma once

#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/plugin.h"
#include "plugins/carbon/account/account.h"

namespace panel_dossier::carbon {

extern const CheckDeclaration kChainOfCustodyCheck;

/// Share by volume, in %, of wood with a claim (CERTIFIED, CONTROLLED or RECLAIMED), a certificate that is in force,
/// names its number, issuer and holder and covers the material, a date within its days, and a delivery note of a
/// document of the project that names the batch, batch by batch. A batch is what shares material and
/// Pset_ManufacturerOccurrence.BatchReference; properties of its part come before those of the material. Below 100 %:
/// evidence needed, with the batches named. `no wood` where there is none.
Finding check_chain_of_custody(const PanelAccount& account);

/// The share over the wood of all panels.
Finding custody_of_project(const Project& project, const std::vector<PanelFindings>& panels);

}  // namespace panel_dossier::carbon
