// Cutting pieces from stock bars: first-fit decreasing, and a bound that no cutting plan can beat.
#pragma once

#include <cstddef>
#include <vector>

#include "plugins/quantities/cutting/cut_parts.h"

namespace panel_dossier::quantities {

/// A bar of stock and what is cut from it.
struct Bar {
  Micrometres stock = 0;            ///< length bought
  std::vector<std::size_t> pieces;  ///< indices into the lengths given to `pack_bars`
};

/// First-fit decreasing on bars of the longest stock; then each bar is exchanged for the shortest stock that holds its
/// pieces with one kerf between neighbours. Every piece lands in exactly one bar. Deterministic; O(n·bars).
/// Precondition: `stock` is not empty, all lengths are positive, no length exceeds the longest stock, `kerf` >= 0.
std::vector<Bar> pack_bars(const std::vector<Micrometres>& lengths, const std::vector<Micrometres>& stock,
                           Micrometres kerf);

/// A proven lower bound on the number of bars of length `stock`: the bound L2 of Martello and Toth for bin packing
/// (Knapsack Problems, 1990, chapter 8; from memory), with one kerf added to each piece and to the bar. It is never
/// less than the total length divided by the bar.
std::size_t fewest_bars(const std::vector<Micrometres>& lengths, Micrometres stock, Micrometres kerf);

}  // namespace panel_dossier::quantities
