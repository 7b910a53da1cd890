// Bars one after another, each filled as well as the pieces left allow.
#pragma once

#include <vector>

#include "plugins/quantities/cutting/cutting_problem.h"

namespace panel_dossier::quantities {

/// The longest piece left opens a bar; the pieces and the stock length that leave the smallest share of the bar unused
/// join it (subset sum by bit sets); and again until none is left. Good for the last bars of a plan, and for demands of
/// very many lengths. Deterministic. Precondition: every piece fits the longest stock.
std::vector<CutPattern> fill_bars(const std::vector<LengthDemand>& demands, const StockRules& rules);

}  // namespace panel_dossier::quantities
