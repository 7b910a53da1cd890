#include "plugins/quantities/cutting/stock_bound.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>

#include "core/api/support/units.h"
#include "plugins/quantities/cutting/cut_parts.h"
#include "plugins/quantities/cutting/cutting_problem.h"
#include "plugins/quantities/cutting/knapsack.h"

namespace panel_dossier::quantities {

namespace {

constexpr std::int64_t kNanometresPerMicrometre = 1000;
/// Each round lowers the prices by what the knapsack shows; the second usually passes.
constexpr int kMostPricings = 6;

/// Whole bars only buy multiples of the greatest common measure of the stock lengths.
Micrometres up_to_whole_bars(Micrometres length, const StockRules& rules) {
  Micrometres measure = 0;
  for (const Micrometres stock : rules.lengths) measure = std::gcd(measure, stock);
  return measure == 0 ? 0 : quotient_up(length, measure) * measure;
}

/// The largest worth of pieces over length of bar; at most 1 proves the prices.
double worst_ratio(const std::vector<std::int64_t>& prices_nm, const UnitLengths& units, const StockRules& rules,
                   bool& proven) {
  std::vector<KnapsackItem> items;
  for (std::size_t i = 0; i < prices_nm.size(); ++i) items.push_back({i, units.pieces[i], prices_nm[i]});
  const Knapsack knapsack(std::move(items), *std::max_element(units.bars.begin(), units.bars.end()));
  double worst = 0.0;
  proven = true;
  for (std::size_t s = 0; s < units.bars.size(); ++s) {
    const std::int64_t worth_nm = knapsack.value(units.bars[s]);
    const std::int64_t length_nm = rules.lengths[s] * kNanometresPerMicrometre;
    proven = proven && worth_nm <= length_nm;
    worst = std::max(worst, static_cast<double>(worth_nm) / static_cast<double>(length_nm));
  }
  return worst;
}

}  // namespace

Micrometres length_bound(const std::vector<LengthDemand>& demands, const StockRules& rules) {
  Micrometres total = 0;
  for (const LengthDemand& demand : demands) total += demand.count * (demand.length + rules.kerf);
  Micrometres least = 0;
  for (const Micrometres stock : rules.lengths) {
    const Micrometres room = room_of(rules, stock);
    if (room <= 0) continue;
    // total · stock / room, upwards, in parts that cannot overflow.
    const Micrometres cost = total / room * stock + quotient_up(total % room * stock, room);
    least = least == 0 ? cost : std::min(least, cost);
  }
  return up_to_whole_bars(least, rules);
}

Micrometres price_bound(const std::vector<LengthDemand>& demands, const StockRules& rules,
                        const std::vector<double>& prices_m) {
  const UnitLengths units = unit_lengths(demands, rules, Rounding::relaxed);
  double scale = units::kNanometrePerMetre;
  for (int round = 0; round < kMostPricings; ++round) {
    std::vector<std::int64_t> prices_nm;
    prices_nm.reserve(prices_m.size());
    for (const double price_m : prices_m) prices_nm.push_back(std::max(0L, std::lround(std::floor(price_m * scale))));
    bool proven = false;
    const double worst = worst_ratio(prices_nm, units, rules, proven);
    if (!proven) {
      scale /= worst * (1.0 + 1.0e-12);
      continue;
    }
    std::int64_t worth_nm = 0;
    for (std::size_t i = 0; i < demands.size(); ++i) worth_nm += demands[i].count * prices_nm[i];
    return up_to_whole_bars(quotient_up(worth_nm, kNanometresPerMicrometre), rules);
  }
  return 0;
}

}  // namespace panel_dossier::quantities
