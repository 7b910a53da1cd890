// The one-dimensional cutting-stock problem: equal lengths counted, stock lengths, the saw, and how the settings give
// them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/settings.h"
#include "plugins/quantities/cutting/cut_parts.h"

namespace panel_dossier::quantities {

/// What the saw and the store allow.
struct StockRules {
  std::vector<Micrometres> lengths;  ///< bought, distinct, ascending
  Micrometres kerf = 0;              ///< width of one saw cut, between neighbouring pieces
  Micrometres defects = 0;           ///< length of each bar that is cut away for splits and knots
};

/// How many pieces of one length.
struct LengthDemand {
  Micrometres length = 0;
  int count = 0;
};

/// A bar and what is cut from it: index into the demands and how often, by ascending index.
struct CutPattern {
  Micrometres stock = 0;
  std::vector<std::pair<std::size_t, int>> pieces;
};

/// Pieces with a kerf each take at most this much of a bar: the last piece needs no cut behind it.
inline Micrometres room_of(const StockRules& rules, Micrometres stock) {
  return stock - rules.defects + rules.kerf;
}

/// Equal lengths counted, longest first.
std::vector<LengthDemand> demands_of(std::vector<Micrometres> lengths);

/// Length of all pieces of the pattern with a kerf behind each.
Micrometres taken_by(const CutPattern& pattern, const std::vector<LengthDemand>& demands, Micrometres kerf);

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

/// Reads `quantities.stock_lengths_m`, `quantities.saw_kerf_m` and, where given, `quantities.stock_defect_allowance_m`
/// as inputs of the finding; notes what is missing or cannot be used.
StockRules read_stock_rules(FindingBuilder& finding, const Settings& settings);

/// `quantities.saw_kerf_m` as an input of the finding; 0 with a note of what is missing.
Micrometres read_saw_kerf(FindingBuilder& finding, const Settings& settings);

}  // namespace panel_dossier::quantities
