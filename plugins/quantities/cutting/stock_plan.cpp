#include "plugins/quantities/cutting/stock_plan.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <set>
#include <tuple>
#include <utility>
#include <vector>

#include "plugins/quantities/cutting/bar_packing.h"
#include "plugins/quantities/cutting/column_generation.h"

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

namespace {

/// The program's basis is dense, so its time grows with the cube of the number of lengths.
constexpr std::size_t kMostLengths = 300;
/// First fit looks at every open bar for every piece.
constexpr int kMostPiecesForFirstFit = 3000;
/// Beyond this the program's rounded plan is always better than one filled bar by bar, and far quicker.
constexpr int kMostPiecesAtOnce = 5000;
/// Shares of a pattern from here on are taken as a whole one when the pieces are still wanted.
constexpr double kAlmostWhole = 0.6;
constexpr double kRoundingOfTimes = 1.0e-6;
/// A dive takes milliseconds for few lengths; with many, the rest that rounding costs is a small share anyway.
std::size_t dives_for(std::size_t lengths) {
  if (lengths <= 40) return 40;
  return lengths <= 150 ? 2 : 0;
}

using Bars = std::vector<CutPattern>;

Micrometres length_of(const Bars& bars) {
  Micrometres total = 0;
  for (const CutPattern& bar : bars) total += bar.stock;
  return total;
}

int pieces_of(const std::vector<LengthDemand>& demands) {
  int pieces = 0;
  for (const LengthDemand& demand : demands) pieces += demand.count;
  return pieces;
}

/// Fills one bar of the longest stock after the other, each from its longest piece, and goes back where the waste of
/// all of them together would exceed what the number of bars allows: bin completion, Korf, 2002 (from memory). Rounding
/// of a linear program misses plans without any waste, which this finds. It gives up after so many steps.
class BarCompletion {
 public:
  BarCompletion(const std::vector<LengthDemand>& demands, const StockRules& rules) : demands_(demands), rules_(rules) {}

  /// So many bars that hold all pieces; none where there are none, or none was found in time.
  std::optional<Bars> bars(Micrometres count) {
    left_.clear();
    Micrometres taken = 0;
    for (const LengthDemand& demand : demands_) {
      left_.push_back(demand.count);
      taken += demand.count * (demand.length + rules_.kerf);
    }
    const Micrometres slack = count * room() - taken;
    if (slack < 0 || !next_bar(slack)) return std::nullopt;
    return bars_;
  }

 private:
  static constexpr int kMostSteps = 1'000'000;

  const std::vector<LengthDemand>& demands_;
  const StockRules& rules_;
  std::vector<int> left_;
  std::map<std::size_t, int> bar_;
  Bars bars_;
  std::set<std::pair<Micrometres, std::vector<int>>> failed_;  ///< slack and pieces left that lead nowhere
  int steps_ = 0;

  Micrometres room() const { return room_of(rules_, rules_.lengths.back()); }

  bool next_bar(Micrometres slack) {
    const auto longest = std::find_if(left_.begin(), left_.end(), [](int count) { return count > 0; });
    if (longest == left_.end()) return true;
    if (failed_.contains({slack, left_})) return false;
    const auto first = static_cast<std::size_t>(longest - left_.begin());
    if (with_piece(first, room(), slack)) return true;
    failed_.emplace(slack, left_);
    return false;
  }

  bool with_piece(std::size_t item, Micrometres space, Micrometres slack) {
    const Micrometres takes = demands_[item].length + rules_.kerf;
    if (takes > space || left_[item] == 0) return false;
    --left_[item];
    ++bar_[item];
    if (complete(item, space - takes, slack)) return true;
    ++left_[item];
    if (--bar_[item] == 0) bar_.erase(item);
    return false;
  }

  /// Adds pieces from `item` on, or closes the bar.
  bool complete(std::size_t item, Micrometres space, Micrometres slack) {
    if (++steps_ > kMostSteps) return false;
    for (std::size_t i = item; i < left_.size(); ++i) {
      if (with_piece(i, space, slack)) return true;
    }
    if (space > slack) return false;
    const std::map<std::size_t, int> closed = std::exchange(bar_, {});
    bars_.push_back({rules_.lengths.back(), {closed.begin(), closed.end()}});
    if (next_bar(slack - space)) return true;
    bars_.pop_back();
    bar_ = closed;
    return false;
  }
};

/// More pieces or lengths leave the completion no chance within its steps.
constexpr int kMostPiecesToComplete = 150;

/// First-fit decreasing, as patterns.
Bars first_fit(const std::vector<LengthDemand>& demands, const StockRules& rules) {
  std::vector<Micrometres> lengths;
  std::vector<std::size_t> items;
  for (std::size_t i = 0; i < demands.size(); ++i) {
    lengths.insert(lengths.end(), static_cast<std::size_t>(demands[i].count), demands[i].length);
    items.insert(items.end(), static_cast<std::size_t>(demands[i].count), i);
  }
  std::vector<Micrometres> usable;
  for (const Micrometres stock : rules.lengths) {
    if (stock > rules.defects) usable.push_back(stock - rules.defects);
  }
  Bars bars;
  for (const Bar& bar : pack_bars(lengths, usable, rules.kerf)) {
    std::map<std::size_t, int> counts;
    for (const std::size_t piece : bar.pieces) ++counts[items[piece]];
    bars.push_back({bar.stock + rules.defects, {counts.begin(), counts.end()}});
  }
  return bars;
}

class Planner {
 public:
  Planner(const std::vector<LengthDemand>& demands, const StockRules& rules)
      : demands_(demands), rules_(rules), left_(demands) {}

  Bars plan() {
    const bool many_lengths = demands_.size() > kMostLengths;
    if (many_lengths || pieces_of(left_) <= kMostPiecesAtOnce) keep_if_better();
    if (many_lengths) return best_;
    const FractionalPlan whole = generate_columns(left_, rules_, pool_);
    bound_ = std::max(bound_, price_bound(demands_, rules_, whole.prices_m));
    dive(whole);
    // Other first bars lead to other plans; tried while the bound leaves hope.
    const std::size_t most = std::min(whole.uses.size(), dives_for(demands_.size()));
    for (std::size_t first = 0; first < most && best_length_ > bound_; ++first) {
      left_ = demands_;
      fixed_.clear();
      take(whole.uses[first].pattern);
      dive(generate_columns(left_, rules_, pool_));
    }
    complete_to_bound();
    return best_;
  }

  Micrometres bound() const { return bound_; }

 private:
  const std::vector<LengthDemand>& demands_;
  const StockRules& rules_;
  std::vector<LengthDemand> left_;  ///< what the fixed bars do not give yet
  Bars fixed_;
  std::vector<CutPattern> pool_;
  Bars best_;
  Micrometres best_length_ = std::numeric_limits<Micrometres>::max();
  Micrometres bound_ = length_bound(demands_, rules_);

  /// Where the plan lies above the bound and that is a whole number of the longest bars.
  void complete_to_bound() {
    const Micrometres stock = rules_.lengths.back();
    if (best_length_ <= bound_ || bound_ % stock != 0 || pieces_of(demands_) > kMostPiecesToComplete) return;
    left_ = demands_;
    fixed_.clear();
    if (const auto bars = BarCompletion(demands_, rules_).bars(bound_ / stock)) consider(*bars);
  }

  /// Fixes bars of the fractional plan and solves for the rest, until nothing is left or the plan meets the bound.
  void dive(FractionalPlan fractional) {
    while (pieces_of(left_) > 0 && best_length_ > bound_) {
      fix(fractional);
      keep_if_better();
      fractional = generate_columns(left_, rules_, pool_);
    }
  }

  /// The fixed bars and the rest filled bar by bar, or exactly where it is small.
  void keep_if_better() {
    if (pieces_of(left_) <= kMostPiecesExactly) return consider(exact_bars(left_, rules_));
    consider(fill_bars(left_, rules_));
    if (pieces_of(left_) <= kMostPiecesForFirstFit) consider(first_fit(left_, rules_));
  }

  void consider(const Bars& rest) {
    const Micrometres length = length_of(fixed_) + length_of(rest);
    if (length >= best_length_) return;
    best_length_ = length;
    best_ = fixed_;
    best_.insert(best_.end(), rest.begin(), rest.end());
  }

  /// Whole bars first, then those almost whole; at least one, so that the rest shrinks.
  void fix(const FractionalPlan& fractional) {
    const std::size_t before = fixed_.size();
    std::vector<PatternUse> uses = fractional.uses;
    for (PatternUse& use : uses) {
      const double whole = std::floor(use.times + kRoundingOfTimes);
      for (int i = 0; i < static_cast<int>(whole) && wanted_whole(use.pattern); ++i) take(use.pattern);
      use.times -= whole;
    }
    std::stable_sort(uses.begin(), uses.end(),
                     [](const PatternUse& a, const PatternUse& b) { return a.times > b.times; });
    for (const PatternUse& use : uses) {
      if (use.times >= kAlmostWhole && wanted_whole(use.pattern)) take(use.pattern);
    }
    if (fixed_.size() == before && !uses.empty()) take(uses.front().pattern);
  }

  bool wanted_whole(const CutPattern& pattern) const {
    return std::all_of(pattern.pieces.begin(), pattern.pieces.end(),
                       [this](const auto& piece) { return left_[piece.first].count >= piece.second; });
  }

  /// A bar of the pattern, without pieces beyond what is left.
  void take(const CutPattern& pattern) {
    CutPattern bar{pattern.stock, {}};
    for (const auto& [item, count] : pattern.pieces) {
      const int taken = std::min(count, left_[item].count);
      if (taken == 0) continue;
      left_[item].count -= taken;
      bar.pieces.emplace_back(item, taken);
    }
    if (!bar.pieces.empty()) fixed_.push_back(std::move(bar));
  }
};

Micrometres shortest_that_holds(const CutPattern& bar, const std::vector<LengthDemand>& demands,
                                const StockRules& rules) {
  const Micrometres taken = taken_by(bar, demands, rules.kerf);
  Micrometres best = bar.stock;
  for (const Micrometres stock : rules.lengths) {
    if (room_of(rules, stock) >= taken) best = std::min(best, stock);
  }
  return best;
}

/// Equal bars counted; most used first, then long stock, then long pieces.
std::vector<RepeatedPattern> repeated(const Bars& bars) {
  std::map<std::pair<Micrometres, std::vector<std::pair<std::size_t, int>>>, int> times;
  for (const CutPattern& bar : bars) ++times[{-bar.stock, bar.pieces}];
  std::vector<RepeatedPattern> patterns;
  patterns.reserve(times.size());
  for (const auto& [key, count] : times) patterns.push_back({{-key.first, key.second}, count});
  std::stable_sort(patterns.begin(), patterns.end(),
                   [](const RepeatedPattern& a, const RepeatedPattern& b) { return a.times > b.times; });
  return patterns;
}

}  // namespace

StockPlan plan_stock(const std::vector<Micrometres>& lengths, const StockRules& rules) {
  StockPlan plan;
  plan.demands = demands_of(lengths);
  if (plan.demands.empty()) return plan;
  Planner planner(plan.demands, rules);
  Bars bars = planner.plan();
  for (CutPattern& bar : bars) bar.stock = shortest_that_holds(bar, plan.demands, rules);
  plan.bought = length_of(bars);
  plan.patterns = repeated(bars);
  plan.bound = planner.bound();
  return plan;
}

}  // namespace panel_dossier::quantities
