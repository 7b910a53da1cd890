// Bars for the pieces that are left: one after another, or at least length when they are few.
#pragma once

#include <vector>

#include "plugins/quantities/cutting/cutting_problem.h"

namespace panel_dossier::quantities {

/// The longest piece left opens a bar; the pieces and the stock length that leave the smallest share of the bar unused
/// join it (subset sum by bit sets); and again until none is left. Good for the last bars of a plan, and for demands of
/// very many lengths. Deterministic. Precondition: every piece fits the longest stock.
std::vector<CutPattern> fill_bars(const std::vector<LengthDemand>& demands, const StockRules& rules);

/// Most pieces that `exact_bars` takes; its time grows threefold with each.
inline constexpr int kMostPiecesExactly = 11;

/// Bars that buy the least stock length, by dynamic programming over all sets of pieces. Precondition: at most
/// `kMostPiecesExactly` pieces, each fitting the longest stock.
std::vector<CutPattern> exact_bars(const std::vector<LengthDemand>& demands, const StockRules& rules);

}  // namespace panel_dossier::quantities
