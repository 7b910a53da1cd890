#include "plugins/quantities/cutting/bar_packing.h"

#include <algorithm>
#include <numeric>

#include "plugins/quantities/cutting/cut_parts.h"

namespace panel_dossier::quantities {

namespace {

Micrometres shortest_stock(const std::vector<Micrometres>& stock, Micrometres used) {
  Micrometres best = *std::max_element(stock.begin(), stock.end());
  for (const Micrometres length : stock) {
    if (length >= used) best = std::min(best, length);
  }
  return best;
}

/// L2 for one threshold: items longer than `bar - threshold` stand alone, items longer than half a bar cannot share
/// with each other, and items from `threshold` to half a bar fill at most what the latter leave.
std::size_t bound_at(const std::vector<Micrometres>& items, Micrometres bar, Micrometres threshold) {
  std::size_t alone = 0;
  std::size_t over_half = 0;
  Micrometres over_half_length = 0;
  Micrometres small_length = 0;
  for (const Micrometres item : items) {
    if (item > bar - threshold) {
      ++alone;
    } else if (2 * item > bar) {
      ++over_half;
      over_half_length += item;
    } else if (item >= threshold) {
      small_length += item;
    }
  }
  const Micrometres room = static_cast<Micrometres>(over_half) * bar - over_half_length;
  const std::size_t more = small_length > room ? static_cast<std::size_t>(quotient_up(small_length - room, bar)) : 0;
  return alone + over_half + more;
}

}  // namespace

std::vector<Bar> pack_bars(const std::vector<Micrometres>& lengths, const std::vector<Micrometres>& stock,
                           Micrometres kerf) {
  std::vector<std::size_t> order(lengths.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return lengths[a] > lengths[b]; });
  const Micrometres longest = *std::max_element(stock.begin(), stock.end());
  std::vector<Bar> bars;
  std::vector<Micrometres> used;
  for (const std::size_t piece : order) {
    const auto fits = [&](Micrometres taken) { return taken + kerf + lengths[piece] <= longest; };
    const auto found = static_cast<std::size_t>(std::find_if(used.begin(), used.end(), fits) - used.begin());
    if (found == used.size()) {
      bars.push_back({longest, {piece}});
      used.push_back(lengths[piece]);
    } else {
      bars[found].pieces.push_back(piece);
      used[found] += kerf + lengths[piece];
    }
  }
  for (std::size_t i = 0; i < bars.size(); ++i) bars[i].stock = shortest_stock(stock, used[i]);
  return bars;
}

std::size_t fewest_bars(const std::vector<Micrometres>& lengths, Micrometres stock, Micrometres kerf) {
  std::vector<Micrometres> items;
  items.reserve(lengths.size());
  for (const Micrometres length : lengths) items.push_back(length + kerf);
  const Micrometres bar = stock + kerf;
  std::vector<Micrometres> thresholds{0};
  for (const Micrometres item : items) {
    if (2 * item <= bar) thresholds.push_back(item);
  }
  std::sort(thresholds.begin(), thresholds.end());
  thresholds.erase(std::unique(thresholds.begin(), thresholds.end()), thresholds.end());
  std::size_t best = 0;
  for (const Micrometres threshold : thresholds) best = std::max(best, bound_at(items, bar, threshold));
  return best;
}

}  // namespace panel_dossier::quantities
