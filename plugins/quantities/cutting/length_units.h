// Lengths as whole units, so that knapsacks over them stay small.
#pragma once

#include <cstdint>
#include <vector>

#include "plugins/quantities/cutting/cutting_problem.h"

namespace panel_dossier::quantities {

/// Pieces (with a kerf each) and bars in whole units.
struct UnitLengths {
  std::vector<std::int64_t> pieces;  ///< by demand
  std::vector<std::int64_t> bars;    ///< by stock length
};

enum class Rounding {
  safe,     ///< pieces up: what fits in units fits in truth
  relaxed,  ///< pieces down: what fits in truth fits in units
};

/// The unit is the greatest length that measures all of them without rest, as the millimetre or half of it usually
/// does; where that would give a bar more than 12 000 units, it is the longest bar over 10 000, and pieces are rounded.
UnitLengths unit_lengths(const std::vector<LengthDemand>& demands, const StockRules& rules, Rounding rounding);

}  // namespace panel_dossier::quantities
