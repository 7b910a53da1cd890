#include "plugins/quantities/cutting/column_generation.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

#include "core/api/support/units.h"
#include "plugins/quantities/cutting/cutting_master.h"
#include "plugins/quantities/cutting/knapsack.h"
#include "plugins/quantities/cutting/length_units.h"

namespace panel_dossier::quantities {

namespace {

/// A tenth of what a plan may lie above the bound is far more than stopping early costs here.
constexpr double kCloseEnough = 2.0e-4;
/// A pattern worth a billionth more than its bar is rounding.
constexpr double kLeastWorth = 1.0 + 1.0e-9;
constexpr int kMostRounds = 4000;

/// The demands that ask for pieces, and the way back to the caller's indices.
struct Active {
  std::vector<LengthDemand> demands;
  std::vector<std::size_t> original;
};

Active active_of(const std::vector<LengthDemand>& demands) {
  Active active;
  for (std::size_t i = 0; i < demands.size(); ++i) {
    if (demands[i].count <= 0) continue;
    active.demands.push_back(demands[i]);
    active.original.push_back(i);
  }
  return active;
}

/// The pattern without the pieces that nobody asks for any more.
CutPattern into_active(const CutPattern& pattern, const Active& active) {
  CutPattern result{pattern.stock, {}};
  for (const auto& [item, count] : pattern.pieces) {
    const auto place = std::lower_bound(active.original.begin(), active.original.end(), item);
    if (place == active.original.end() || *place != item) continue;
    result.pieces.emplace_back(static_cast<std::size_t>(place - active.original.begin()), count);
  }
  return result;
}

CutPattern from_active(CutPattern pattern, const Active& active) {
  for (auto& [item, count] : pattern.pieces) item = active.original[item];
  return pattern;
}

/// Bars of one length of piece each, of the stock that costs least by the piece.
std::vector<CutPattern> single_length_patterns(const Active& active, const StockRules& rules) {
  std::vector<CutPattern> patterns;
  for (std::size_t i = 0; i < active.demands.size(); ++i) {
    const Micrometres each = active.demands[i].length + rules.kerf;
    CutPattern best;
    for (const Micrometres stock : rules.lengths) {
      const auto count = static_cast<int>(room_of(rules, stock) / each);
      if (count < 1) continue;
      if (best.pieces.empty() || stock * best.pieces[0].second < best.stock * count) best = {stock, {{i, count}}};
    }
    patterns.push_back(std::move(best));
  }
  return patterns;
}

class Generator {
 public:
  Generator(const Active& active, const StockRules& rules)
      : active_(active),
        rules_(rules),
        units_(unit_lengths(active.demands, rules, Rounding::safe)),
        largest_bar_(*std::max_element(units_.bars.begin(), units_.bars.end())),
        master_(active.demands, single_length_patterns(active, rules)) {}

  CuttingMaster& master() { return master_; }
  const std::vector<double>& best_prices_m() const { return best_prices_m_; }

  void run(std::vector<CutPattern>& pool) {
    for (int round = 0; round < kMostRounds; ++round) {
      master_.solve();
      const Knapsack knapsack = knapsack_at_prices();
      keep_prices_of_best_bound(knapsack);
      if (best_bound_m_ >= master_.cost_m() * (1.0 - kCloseEnough)) return;
      if (!add_patterns(knapsack, pool)) return;
    }
  }

 private:
  const Active& active_;
  const StockRules& rules_;
  UnitLengths units_;
  std::int64_t largest_bar_;
  CuttingMaster master_;
  double best_bound_m_ = -1.0;
  std::vector<double> best_prices_m_;

  Knapsack knapsack_at_prices() const {
    std::vector<KnapsackItem> items;
    for (std::size_t i = 0; i < units_.pieces.size(); ++i) {
      const double price_m = master_.prices_m()[static_cast<Eigen::Index>(i)];
      items.push_back({i, units_.pieces[i], std::llround(price_m * units::kNanometrePerMetre)});
    }
    return {std::move(items), largest_bar_};
  }

  /// Worth of the best pattern over the length of its bar.
  double worth(const Knapsack& knapsack, std::size_t stock) const {
    return static_cast<double>(knapsack.value(units_.bars[stock])) /
           (metres(rules_.lengths[stock]) * units::kNanometrePerMetre);
  }

  /// Prices divided by the largest worth overcharge no pattern, so they bound every plan from below.
  void keep_prices_of_best_bound(const Knapsack& knapsack) {
    double largest = 1.0;
    for (std::size_t s = 0; s < units_.bars.size(); ++s) largest = std::max(largest, worth(knapsack, s));
    const double bound_m = master_.cost_m() / largest;
    if (bound_m <= best_bound_m_) return;
    best_bound_m_ = bound_m;
    best_prices_m_.assign(master_.prices_m().begin(), master_.prices_m().end());
  }

  bool add_patterns(const Knapsack& knapsack, std::vector<CutPattern>& pool) {
    bool added = false;
    for (std::size_t s = 0; s < units_.bars.size(); ++s) {
      if (worth(knapsack, s) <= kLeastWorth) continue;
      CutPattern pattern{rules_.lengths[s], knapsack.contents(units_.bars[s])};
      std::sort(pattern.pieces.begin(), pattern.pieces.end());
      pool.push_back(from_active(pattern, active_));
      master_.add(std::move(pattern));
      added = true;
    }
    return added;
  }
};

}  // namespace

FractionalPlan generate_columns(const std::vector<LengthDemand>& demands, const StockRules& rules,
                                std::vector<CutPattern>& pool) {
  FractionalPlan plan;
  plan.prices_m.assign(demands.size(), 0.0);
  const Active active = active_of(demands);
  if (active.demands.empty()) return plan;
  Generator generator(active, rules);
  for (const CutPattern& pattern : pool) generator.master().add(into_active(pattern, active));
  generator.run(pool);
  for (std::size_t i = 0; i < active.original.size(); ++i) {
    plan.prices_m[active.original[i]] = generator.best_prices_m()[i];
  }
  for (const CuttingMaster::Use& use : generator.master().uses()) {
    plan.uses.push_back({from_active(generator.master().patterns()[use.pattern], active), use.times});
  }
  return plan;
}

}  // namespace panel_dossier::quantities
