// The linear program over cutting patterns: the least stock length with patterns in fractions, found by adding patterns
// only as they are needed, with the knapsack that finds them and the bounds that its prices prove.
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "plugins/quantities/cutting/cutting_problem.h"

namespace panel_dossier::quantities {

struct KnapsackItem {
  std::size_t id = 0;       ///< the caller's own; returned in `contents`
  std::int64_t weight = 0;  ///< in units, positive
  std::int64_t value = 0;   ///< items worth nothing or less are passed over
};

/// Solved once, for every capacity up to the largest, by dynamic programming in whole numbers, so exactly.
/// O(items·capacity) time, O(capacity) memory. Deterministic; immutable after construction.
class Knapsack {
 public:
  /// Precondition: `capacity` >= 0 and below 2³¹; sums of values within the capacity fit 63 bits.
  Knapsack(std::vector<KnapsackItem> items, std::int64_t capacity);

  /// Largest total value of items whose weights add up to at most `capacity`. Precondition: 0 <= capacity <= the
  /// constructor's.
  std::int64_t value(std::int64_t capacity) const { return best_[static_cast<std::size_t>(capacity)]; }
  /// A filling of that value: item id and how often, by ascending weight.
  std::vector<std::pair<std::size_t, int>> contents(std::int64_t capacity) const;

 private:
  std::vector<KnapsackItem> items_;
  std::vector<std::int64_t> best_;
  std::vector<std::uint32_t> last_item_;  ///< index + 1 of the item put in last; 0: a unit stays empty
};

/// Least stock length to buy by length alone: every piece with its kerf, at the stock whose length is used best, taken
/// up to the next sum that whole bars can have.
Micrometres length_bound(const std::vector<LengthDemand>& demands, const StockRules& rules);

/// The bound that prices in m of stock for each piece prove. Prices are taken to whole nanometres and lowered until a
/// knapsack in whole numbers shows that no bar holds pieces worth more than its own length; then every plan costs at
/// least the worth of all pieces (duality of linear programs). With the prices of the linear program over all cutting
/// patterns it is the bound of Gilmore and Gomory. 0 where prices prove nothing.
Micrometres price_bound(const std::vector<LengthDemand>& demands, const StockRules& rules,
                        const std::vector<double>& prices_m);

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
