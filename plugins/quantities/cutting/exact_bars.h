// The least stock length for a handful of pieces.
#pragma once

#include <vector>

#include "plugins/quantities/cutting/cutting_problem.h"

namespace panel_dossier::quantities {

/// Most pieces that `exact_bars` takes; its time grows threefold with each.
inline constexpr int kMostPiecesExactly = 11;

/// Bars that buy the least stock length, by dynamic programming over all sets of pieces. Precondition: at most
/// `kMostPiecesExactly` pieces, each fitting the longest stock.
std::vector<CutPattern> exact_bars(const std::vector<LengthDemand>& demands, const StockRules& rules);

}  // namespace panel_dossier::quantities
