// Stock lengths, saw and allowance from the project settings.
#pragma once

#include "core/api/finding/finding_builder.h"
#include "core/api/model/settings.h"
#include "plugins/quantities/cutting/cutting_problem.h"

namespace panel_dossier::quantities {

/// Reads `quantities.stock_lengths_m`, `quantities.saw_kerf_m` and, where given, `quantities.stock_defect_allowance_m`
/// as inputs of the finding; notes what is missing or cannot be used.
StockRules read_stock_rules(FindingBuilder& finding, const Settings& settings);

/// `quantities.saw_kerf_m` as an input of the finding; 0 with a note of what is missing.
Micrometres read_saw_kerf(FindingBuilder& finding, const Settings& settings);

}  // namespace panel_dossier::quantities
