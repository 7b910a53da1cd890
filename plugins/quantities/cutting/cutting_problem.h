// The one-dimensional cutting-stock problem: equal lengths counted, stock lengths, the saw.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

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

}  // namespace panel_dossier::quantities
