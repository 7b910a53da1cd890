#include "plugins/quantities/cutting/column_generation.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>

#include "core/api/support/units.h"
#include "plugins/quantities/cutting/cut_parts.h"

namespace panel_dossier::quantities {

namespace {

/// Ascending weight, each item worth more than every lighter one: the others are never needed.
std::vector<KnapsackItem> worth_packing(std::vector<KnapsackItem> items) {
  std::sort(items.begin(), items.end(), [](const KnapsackItem& a, const KnapsackItem& b) {
    return std::tuple(a.weight, -a.value, a.id) < std::tuple(b.weight, -b.value, b.id);
  });
  std::vector<KnapsackItem> kept;
  std::int64_t most = 0;
  for (const KnapsackItem& item : items) {
    if (item.value <= most) continue;
    most = item.value;
    kept.push_back(item);
  }
  return kept;
}

}  // namespace

Knapsack::Knapsack(std::vector<KnapsackItem> items, std::int64_t capacity)
    : items_(worth_packing(std::move(items))),
      best_(static_cast<std::size_t>(capacity) + 1, 0),
      last_item_(static_cast<std::size_t>(capacity) + 1, 0) {
  std::size_t usable = 0;
  for (std::size_t room = 1; room < best_.size(); ++room) {
    while (usable < items_.size() && items_[usable].weight <= static_cast<std::int64_t>(room)) ++usable;
    std::int64_t most = best_[room - 1];
    std::uint32_t choice = 0;
    for (std::size_t i = 0; i < usable; ++i) {
      const std::int64_t candidate = best_[room - static_cast<std::size_t>(items_[i].weight)] + items_[i].value;
      if (candidate > most) {
        most = candidate;
        choice = static_cast<std::uint32_t>(i + 1);
      }
    }
    best_[room] = most;
    last_item_[room] = choice;
  }
}

std::vector<std::pair<std::size_t, int>> Knapsack::contents(std::int64_t capacity) const {
  std::map<std::uint32_t, int> counts;
  for (auto room = static_cast<std::size_t>(capacity); room > 0;) {
    const std::uint32_t choice = last_item_[room];
    if (choice == 0) {
      --room;
      continue;
    }
    ++counts[choice - 1];
    room -= static_cast<std::size_t>(items_[choice - 1].weight);
  }
  std::vector<std::pair<std::size_t, int>> result;
  result.reserve(counts.size());
  for (const auto& [index, count] : counts) result.emplace_back(items_[index].id, count);
  return result;
}

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

namespace {

/// Revised simplex with an explicit inverse of the basis, renewed at intervals. Lengths in m. What it gives is as good
/// as its floating-point numbers: the caller proves a bound from the prices by other means (see stock_bound.h).
/// Gilmore and Gomory, A linear programming approach to the cutting-stock problem, 1961 (from memory).
class CuttingMaster {
 public:
  /// Precondition: every demand is positive, and `start[i]` cuts pieces of demand i alone.
  CuttingMaster(const std::vector<LengthDemand>& demands, const std::vector<CutPattern>& start);

  void add(CutPattern pattern);

  /// Pivots until no known pattern improves the plan; gives up after a number of pivots that grows with the demands.
  void solve();

  /// Stock length of the plan in m.
  double cost_m() const { return cost_of_basis_m().dot(amounts_); }
  /// What one more piece of each demand costs, in m of stock.
  const Eigen::VectorXd& prices_m() const { return prices_; }

  struct Use {
    std::size_t pattern = 0;  ///< index into `patterns()`
    double times = 0.0;       ///< not whole in general
  };
  /// Patterns used more than not at all, in the order of the basis.
  std::vector<Use> uses() const;
  const std::vector<CutPattern>& patterns() const { return patterns_; }

 private:
  /// A column of the program: a pattern, or the surplus of one demand (a piece more than asked for).
  struct Column {
    bool surplus = false;
    std::size_t index = 0;
  };

  std::vector<CutPattern> patterns_;
  std::vector<Column> basis_;
  Eigen::MatrixXd inverse_;
  Eigen::VectorXd demand_;
  Eigen::VectorXd amounts_;
  Eigen::VectorXd prices_;
  int pivots_since_renewal_ = 0;

  static double cost_m(const CutPattern& pattern) { return metres(pattern.stock); }
  Eigen::VectorXd cost_of_basis_m() const;
  Eigen::VectorXd in_basis(const Column& column) const;
  double reduced_cost_m(const Column& column) const;
  bool find_entering(Column& entering) const;
  bool pivot(const Column& entering);
  void renew();
};

/// A gain below a hundredth of a micrometre of stock is rounding.
constexpr double kLeastGain_m = 1.0e-8;
/// A pivot below this would divide by rounding.
constexpr double kLeastPivot = 1.0e-9;
/// Amounts closer than this tie in the ratio test; the larger pivot then wins.
constexpr double kRatioTie = 1.0e-10;
/// Rounding of the product form grows slowly; 150 pivots keep seven digits, and the bound does not rest on them.
constexpr int kPivotsPerRenewal = 150;

CuttingMaster::CuttingMaster(const std::vector<LengthDemand>& demands, const std::vector<CutPattern>& start)
    : patterns_(start) {
  const auto size = static_cast<Eigen::Index>(demands.size());
  demand_.resize(size);
  for (std::size_t i = 0; i < demands.size(); ++i) {
    demand_[static_cast<Eigen::Index>(i)] = demands[i].count;
    basis_.push_back({false, i});
  }
  renew();
}

void CuttingMaster::add(CutPattern pattern) {
  patterns_.push_back(std::move(pattern));
}

Eigen::VectorXd CuttingMaster::cost_of_basis_m() const {
  Eigen::VectorXd cost(demand_.size());
  for (std::size_t i = 0; i < basis_.size(); ++i) {
    cost[static_cast<Eigen::Index>(i)] = basis_[i].surplus ? 0.0 : cost_m(patterns_[basis_[i].index]);
  }
  return cost;
}

/// The column in terms of the basis: how much of each basic column one unit of it displaces.
Eigen::VectorXd CuttingMaster::in_basis(const Column& column) const {
  if (column.surplus) return -inverse_.col(static_cast<Eigen::Index>(column.index));
  Eigen::VectorXd result = Eigen::VectorXd::Zero(demand_.size());
  for (const auto& [item, count] : patterns_[column.index].pieces) {
    result += count * inverse_.col(static_cast<Eigen::Index>(item));
  }
  return result;
}

double CuttingMaster::reduced_cost_m(const Column& column) const {
  if (column.surplus) return prices_[static_cast<Eigen::Index>(column.index)];
  double cost = cost_m(patterns_[column.index]);
  for (const auto& [item, count] : patterns_[column.index].pieces) {
    cost -= count * prices_[static_cast<Eigen::Index>(item)];
  }
  return cost;
}

/// The column that saves most by the piece of stock; false when none saves.
bool CuttingMaster::find_entering(Column& entering) const {
  double least_m = -kLeastGain_m;
  const auto consider = [&](const Column& column) {
    const double cost_m = reduced_cost_m(column);
    if (cost_m >= least_m) return;
    least_m = cost_m;
    entering = column;
  };
  for (std::size_t i = 0; i < patterns_.size(); ++i) consider({false, i});
  for (std::size_t i = 0; i < basis_.size(); ++i) consider({true, i});
  return least_m < -kLeastGain_m;
}

/// Exchanges the entering column for the first basic one that runs out; false when numbers are too poor to pivot on.
bool CuttingMaster::pivot(const Column& entering) {
  const Eigen::VectorXd direction = in_basis(entering);
  Eigen::Index leaving = -1;
  double least = 0.0;
  for (Eigen::Index i = 0; i < direction.size(); ++i) {
    if (direction[i] <= kLeastPivot) continue;
    const double ratio = amounts_[i] / direction[i];
    const bool ties = leaving >= 0 && ratio < least + kRatioTie && direction[i] > direction[leaving];
    if (leaving < 0 || ratio < least - kRatioTie || ties) {
      least = leaving < 0 ? ratio : std::min(least, ratio);
      leaving = i;
    }
  }
  if (leaving < 0) return false;
  const double step = std::max(0.0, amounts_[leaving] / direction[leaving]);
  const double gain_m = reduced_cost_m(entering);
  const Eigen::RowVectorXd row = inverse_.row(leaving) / direction[leaving];
  for (Eigen::Index column = 0; column < row.size(); ++column) {
    if (row[column] != 0.0) inverse_.col(column) -= row[column] * direction;
  }
  inverse_.row(leaving) = row;
  amounts_ = (amounts_ - step * direction).cwiseMax(0.0);
  amounts_[leaving] = step;
  prices_ += gain_m * row.transpose();
  basis_[static_cast<std::size_t>(leaving)] = entering;
  return true;
}

/// Inverts the basis afresh.
void CuttingMaster::renew() {
  Eigen::MatrixXd matrix = Eigen::MatrixXd::Zero(demand_.size(), demand_.size());
  for (std::size_t i = 0; i < basis_.size(); ++i) {
    const auto column = static_cast<Eigen::Index>(i);
    if (basis_[i].surplus) {
      matrix(static_cast<Eigen::Index>(basis_[i].index), column) = -1.0;
      continue;
    }
    for (const auto& [item, count] : patterns_[basis_[i].index].pieces) {
      matrix(static_cast<Eigen::Index>(item), column) = count;
    }
  }
  inverse_ = matrix.partialPivLu().inverse();
  amounts_ = (inverse_ * demand_).cwiseMax(0.0);
  prices_ = inverse_.transpose() * cost_of_basis_m();
  pivots_since_renewal_ = 0;
}

void CuttingMaster::solve() {
  const std::size_t most_pivots = 1000 + 20 * basis_.size();
  Column entering;
  for (std::size_t i = 0; i < most_pivots && find_entering(entering); ++i) {
    if (!pivot(entering)) break;
    if (++pivots_since_renewal_ >= kPivotsPerRenewal) renew();
  }
}

std::vector<CuttingMaster::Use> CuttingMaster::uses() const {
  std::vector<Use> result;
  for (std::size_t i = 0; i < basis_.size(); ++i) {
    const double times = amounts_[static_cast<Eigen::Index>(i)];
    if (!basis_[i].surplus && times > kLeastPivot) result.push_back({basis_[i].index, times});
  }
  return result;
}

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
