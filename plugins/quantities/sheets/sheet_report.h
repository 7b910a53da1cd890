// What a sheet plan buys, as tables.
#pragma once

#include <vector>

#include "core/api/finding/finding.h"
#include "plugins/quantities/sheets/sheet_layouts.h"

namespace panel_dossier::quantities {

/// One row a material and thickness, all batches together.
Table sheet_table(const std::vector<SheetPlan>& plans);
/// One row a batch and material.
Table batch_table(const std::vector<SheetPlan>& plans);

}  // namespace panel_dossier::quantities
