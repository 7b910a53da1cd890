#include "plugins/quantities/cutting/stock_plan.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <tuple>
#include <utility>

#include "plugins/quantities/cutting/bar_filling.h"
#include "plugins/quantities/cutting/bar_packing.h"
#include "plugins/quantities/cutting/column_generation.h"
#include "plugins/quantities/cutting/stock_bound.h"

namespace panel_dossier::quantities {

namespace {

/// The program's basis is dense, so its time grows with the cube of the number of lengths.
constexpr std::size_t kMostLengths = 300;
/// First fit looks at every open bar for every piece.
constexpr int kMostPiecesForFirstFit = 3000;
/// Beyond this the program's rounded plan is always better than one filled bar by bar, and far quicker.
constexpr int kMostPiecesAtOnce = 5000;
/// Shares of a pattern from here on are taken as a whole one when the pieces are still wanted.
constexpr double kAlmostWhole = 0.6;
constexpr double kRounding = 1.0e-6;
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
      const double whole = std::floor(use.times + kRounding);
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
