// The least stock length with patterns in fractions, found by adding patterns only as they are needed.
#pragma once

#include <vector>

#include "plugins/quantities/cutting/cutting_problem.h"

namespace panel_dossier::quantities {

struct PatternUse {
  CutPattern pattern;
  double times = 0.0;  ///< not whole in general
};

struct FractionalPlan {
  std::vector<PatternUse> uses;
  std::vector<double> prices_m;  ///< m of stock that one more piece of each demand costs; input of `price_bound`
};

/// Column generation: the master program prices the pieces, a knapsack finds for every stock length the pattern worth
/// most, and it joins the master while it is worth more than its bar. Ends when no pattern is, or when the best bound
/// so far (Farley, A note on bounding a class of linear programming problems, 1990; from memory) is within 0.02 % of
/// the plan. `pool` holds patterns to begin with and takes those found. Demands of 0 pieces are allowed.
FractionalPlan generate_columns(const std::vector<LengthDemand>& demands, const StockRules& rules,
                                std::vector<CutPattern>& pool);

}  // namespace panel_dossier::quantities
