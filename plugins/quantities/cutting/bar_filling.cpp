#include "plugins/quantities/cutting/bar_filling.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <map>

#include "plugins/quantities/cutting/cutting_problem.h"

namespace panel_dossier::quantities {

namespace {

constexpr std::size_t kWordBits = 64;
constexpr std::uint32_t kNone = ~std::uint32_t{0};

/// Which sums the pieces given so far can make, and the piece that first made each.
class ReachableSums {
 public:
  explicit ReachableSums(std::size_t capacity) : words_(capacity / kWordBits + 1, 0), maker_(capacity + 1, kNone) {
    words_[0] = 1;
  }

  void add(std::size_t item, std::size_t weight) {
    const std::size_t words = weight / kWordBits;
    const std::size_t bits = weight % kWordBits;
    for (std::size_t to = words_.size(); to-- > words;) {
      std::uint64_t moved = words_[to - words] << bits;
      if (bits != 0 && to > words) moved |= words_[to - words - 1] >> (kWordBits - bits);
      std::uint64_t fresh = moved & ~words_[to];
      words_[to] |= fresh;
      for (; fresh != 0; fresh &= fresh - 1) note_maker(to * kWordBits + lowest_bit(fresh), item);
    }
  }

  /// The largest sum up to `limit`.
  std::size_t best_up_to(std::size_t limit) const {
    while (limit > 0 && maker_[limit] == kNone) --limit;
    return limit;
  }
  std::size_t maker(std::size_t sum) const { return maker_[sum]; }

 private:
  std::vector<std::uint64_t> words_;
  std::vector<std::uint32_t> maker_;

  static std::size_t lowest_bit(std::uint64_t word) { return static_cast<std::size_t>(__builtin_ctzll(word)); }
  void note_maker(std::size_t sum, std::size_t item) {
    if (sum < maker_.size()) maker_[sum] = static_cast<std::uint32_t>(item);
  }
};

/// Stock and sum of units with the largest share of the bar filled; the longer bar when equal.
struct Choice {
  std::size_t stock = 0;
  std::size_t sum = 0;
  double share = -1.0;
};

class BarFiller {
 public:
  BarFiller(const std::vector<LengthDemand>& demands, const StockRules& rules)
      : demands_(demands), rules_(rules), units_(unit_lengths(demands, rules, Rounding::safe)) {}

  CutPattern next(std::vector<int>& left) const {
    const std::size_t first = first_left(left);
    --left[first];
    const auto opening = static_cast<std::size_t>(units_.pieces[first]);
    const auto longest = static_cast<std::size_t>(*std::max_element(units_.bars.begin(), units_.bars.end()));
    // A piece as long as the bar may be rounded up beyond it; it then fills the bar alone.
    ReachableSums sums(longest > opening ? longest - opening : 0);
    if (longest > opening) add_pieces(left, longest - opening, sums);
    const Choice choice = best_choice(demands_[first].length, opening, sums);
    std::map<std::size_t, int> counts{{first, 1}};
    for (std::size_t sum = choice.sum; sum > 0;) {
      const std::size_t item = sums.maker(sum);
      ++counts[item];
      --left[item];
      sum -= static_cast<std::size_t>(units_.pieces[item]);
    }
    return {rules_.lengths[choice.stock], {counts.begin(), counts.end()}};
  }

 private:
  const std::vector<LengthDemand>& demands_;
  const StockRules& rules_;
  UnitLengths units_;

  static std::size_t first_left(const std::vector<int>& left) {
    return static_cast<std::size_t>(std::find_if(left.begin(), left.end(), [](int n) { return n > 0; }) - left.begin());
  }

  /// Long pieces first, so that short ones stay for later bars; enough once the longest bar is filled to the brim.
  void add_pieces(const std::vector<int>& left, std::size_t room, ReachableSums& sums) const {
    for (std::size_t item = 0; item < left.size() && sums.best_up_to(room) < room; ++item) {
      const auto weight = static_cast<std::size_t>(units_.pieces[item]);
      const auto most = std::min<std::size_t>(static_cast<std::size_t>(left[item]), room / weight);
      for (std::size_t copy = 0; copy < most; ++copy) sums.add(item, weight);
    }
  }

  Choice best_choice(Micrometres opening_length, std::size_t opening, const ReachableSums& sums) const {
    Choice best;
    for (std::size_t s = 0; s < units_.bars.size(); ++s) {
      if (opening_length + rules_.kerf > room_of(rules_, rules_.lengths[s])) continue;
      const auto room = static_cast<std::size_t>(units_.bars[s]);
      const std::size_t sum = room > opening ? sums.best_up_to(room - opening) : 0;
      const double share = static_cast<double>(opening + sum) / static_cast<double>(rules_.lengths[s]);
      if (share >= best.share) best = {s, sum, share};
    }
    return best;
  }
};

}  // namespace

std::vector<CutPattern> fill_bars(const std::vector<LengthDemand>& demands, const StockRules& rules) {
  const BarFiller filler(demands, rules);
  std::vector<int> left;
  int pieces = 0;
  for (const LengthDemand& demand : demands) {
    left.push_back(demand.count);
    pieces += demand.count;
  }
  std::vector<CutPattern> bars;
  while (pieces > 0) {
    bars.push_back(filler.next(left));
    for (const auto& [item, count] : bars.back().pieces) pieces -= count;
  }
  return bars;
}

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
