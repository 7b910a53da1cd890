#include "plugins/quantities/cutting/exact_bars.h"

#include <cstddef>
#include <limits>
#include <map>

namespace panel_dossier::quantities {

namespace {

constexpr Micrometres kImpossible = std::numeric_limits<Micrometres>::max() / 4;

/// Shortest stock for each set of pieces, `kImpossible` where no bar holds the set.
std::vector<Micrometres> stock_by_set(const std::vector<LengthDemand>& demands, const std::vector<std::size_t>& items,
                                      const StockRules& rules) {
  std::vector<Micrometres> taken(std::size_t{1} << items.size(), 0);
  std::vector<Micrometres> stock(taken.size(), kImpossible);
  for (std::size_t set = 1; set < taken.size(); ++set) {
    const auto lowest = static_cast<std::size_t>(__builtin_ctzll(set));
    taken[set] = taken[set & (set - 1)] + demands[items[lowest]].length + rules.kerf;
    for (auto length = rules.lengths.rbegin(); length != rules.lengths.rend(); ++length) {
      if (room_of(rules, *length) >= taken[set]) stock[set] = *length;
    }
  }
  return stock;
}

}  // namespace

std::vector<CutPattern> exact_bars(const std::vector<LengthDemand>& demands, const StockRules& rules) {
  std::vector<std::size_t> items;
  for (std::size_t i = 0; i < demands.size(); ++i) {
    items.insert(items.end(), static_cast<std::size_t>(demands[i].count), i);
  }
  const std::vector<Micrometres> stock = stock_by_set(demands, items, rules);
  std::vector<Micrometres> least(stock.size(), kImpossible);
  std::vector<std::size_t> bar(stock.size(), 0);
  least[0] = 0;
  for (std::size_t set = 1; set < stock.size(); ++set) {
    // The bar of the first piece of the set is chosen; every way to cut the set has one.
    const std::size_t first = set & (~set + 1);
    for (std::size_t part = set; part != 0; part = (part - 1) & set) {
      if ((part & first) == 0 || stock[part] + least[set ^ part] >= least[set]) continue;
      least[set] = stock[part] + least[set ^ part];
      bar[set] = part;
    }
  }
  std::vector<CutPattern> bars;
  for (std::size_t set = stock.size() - 1; set != 0; set ^= bar[set]) {
    std::map<std::size_t, int> counts;
    for (std::size_t i = 0; i < items.size(); ++i) {
      if ((bar[set] >> i & 1) != 0) ++counts[items[i]];
    }
    bars.push_back({stock[bar[set]], {counts.begin(), counts.end()}});
  }
  return bars;
}

}  // namespace panel_dossier::quantities
