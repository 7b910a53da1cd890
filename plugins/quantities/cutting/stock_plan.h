// A cutting plan for one section of timber, with a proven bound beside it.
#pragma once

#include <vector>

#include "plugins/quantities/cutting/cutting_problem.h"

namespace panel_dossier::quantities {

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
/// least is kept. While it lies above the bound, other bars are tried first. Every bar is then exchanged for the
/// shortest stock that holds its pieces. Sections of more than 300 different lengths are filled bar by bar and bounded
/// by length alone. Deterministic. Precondition: every piece fits the longest stock; stock not empty.
StockPlan plan_stock(const std::vector<Micrometres>& lengths, const StockRules& rules);

}  // namespace panel_dossier::quantities
