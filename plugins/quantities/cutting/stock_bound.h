// Lengths of stock that no cutting plan can save, proven in whole numbers.
#pragma once

#include <vector>

#include "plugins/quantities/cutting/cutting_problem.h"

namespace panel_dossier::quantities {

/// Least stock length to buy by length alone: every piece with its kerf, at the stock whose length is used best, taken
/// up to the next sum that whole bars can have.
Micrometres length_bound(const std::vector<LengthDemand>& demands, const StockRules& rules);

/// The bound that prices in m of stock for each piece prove. Prices are taken to whole nanometres and lowered until a
/// knapsack in whole numbers shows that no bar holds pieces worth more than its own length; then every plan costs at
/// least the worth of all pieces (duality of linear programs). With the prices of the linear program over all cutting
/// patterns it is the bound of Gilmore and Gomory. 0 where prices prove nothing.
Micrometres price_bound(const std::vector<LengthDemand>& demands, const StockRules& rules,
                        const std::vector<double>& prices_m);

}  // namespace panel_dossier::quantities
