// A cutting plan for one section of timber, with a proven bound beside it, and the bars for the pieces that are left:
// one after another, or at least length when they are few.
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

struct RepeatedPattern {
  CutPattern pattern;
  int times = 0;
};

struct StockPlan {
  std::vector<LengthDemand> demands;      ///< longest first; patterns index into it
  std::vector<RepeatedPattern> patterns;  ///< distinct; most used first
  Micrometres bought = 0;                 ///< stock length of all bars
  Micrometres bound = 0;                  ///< proven: no plan buys less
};

/// Plans bars for the pieces: the linear program over patterns is rounded down, what is left is solved again until
/// nothing is, and each time the rest is also filled bar by bar, or exactly when it is a handful; the plan that buys
/// least is kept. While it lies above the bound, other bars are tried first, and of a few pieces all plans without more
/// waste than the bound leaves, as far as a limit of steps goes. Every bar is then exchanged for the
/// shortest stock that holds its pieces. Sections of more than 300 different lengths are filled bar by bar and bounded
/// by length alone. Deterministic. Precondition: every piece fits the longest stock; stock not empty.
StockPlan plan_stock(const std::vector<Micrometres>& lengths, const StockRules& rules);

}  // namespace panel_dossier::quantities
