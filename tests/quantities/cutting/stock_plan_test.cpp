#include "plugins/quantities/cutting/stock_plan.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <random>
#include <vector>

using namespace panel_dossier::quantities;

namespace {

std::vector<Micrometres> random_lengths(std::mt19937& random, std::size_t count, Micrometres unit, int shortest,
                                        int longest) {
  std::uniform_int_distribution<int> units(shortest, longest);
  std::vector<Micrometres> lengths(count);
  for (Micrometres& length : lengths) length = units(random) * unit;
  return lengths;
}

/// Every piece once, every bar a stock length that holds its pieces and kerfs, and sums that agree.
void check_plan(const StockPlan& plan, const std::vector<Micrometres>& lengths, const StockRules& rules) {
  std::map<Micrometres, int> wanted;
  for (const Micrometres length : lengths) ++wanted[length];
  std::map<Micrometres, int> cut;
  Micrometres bought = 0;
  for (const RepeatedPattern& repeated : plan.patterns) {
    REQUIRE(repeated.times > 0);
    REQUIRE(std::count(rules.lengths.begin(), rules.lengths.end(), repeated.pattern.stock) == 1);
    Micrometres used = -rules.kerf;
    for (const auto& [item, count] : repeated.pattern.pieces) {
      used += count * (plan.demands[item].length + rules.kerf);
      cut[plan.demands[item].length] += repeated.times * count;
    }
    REQUIRE(used <= repeated.pattern.stock - rules.defects);
    bought += repeated.times * repeated.pattern.stock;
  }
  CHECK(cut == wanted);
  CHECK(bought == plan.bought);
  CHECK(plan.bound <= plan.bought);
}

}  // namespace

TEST_CASE("every piece is cut once and every bar holds its pieces, kerfs and defects", "[plain]") {
  std::mt19937 random(21);
  const Micrometres kerf = GENERATE(0, 4000);
  const Micrometres defects = GENERATE(0, 30000);
  const StockRules rules{{3000000, 4200000, 4800000, 6000000}, kerf, defects};
  for (const std::size_t count : {1U, 2U, 7U, 60U, 400U}) {
    const auto lengths = random_lengths(random, count, 10000, 5, 590);
    check_plan(plan_stock(lengths, rules), lengths, rules);
  }
}

TEST_CASE("lengths of odd micrometres are planned as well, in rounded units") {
  std::mt19937 random(22);
  const StockRules rules{{3000000, 6000000}, 3999, 0};
  const auto lengths = random_lengths(random, 150, 1, 80001, 5999999);
  const StockPlan plan = plan_stock(lengths, rules);
  check_plan(plan, lengths, rules);
  CHECK(plan.bound > 0);
}

TEST_CASE("a section of very many lengths is planned without the linear program") {
  std::mt19937 random(23);
  const StockRules rules{{4800000, 6000000}, 4000, 0};
  const auto lengths = random_lengths(random, 1200, 500, 600, 9000);
  const StockPlan plan = plan_stock(lengths, rules);
  REQUIRE(plan.demands.size() > 300);
  check_plan(plan, lengths, rules);
  // One percent is what the plans of a workshop are to keep.
  CHECK(static_cast<double>(plan.bought) <= 1.01 * static_cast<double>(plan.bound));
}

TEST_CASE("a project's worth of pieces is planned within one percent of the bound") {
  std::mt19937 random(24);
  const StockRules rules{{3000000, 4200000, 4800000, 6000000}, 4000, 0};
  const auto kinds = random_lengths(random, 50, 2500, 40, 1800);
  std::vector<Micrometres> lengths;
  for (int i = 0; i < 1000; ++i) lengths.push_back(kinds[random() % kinds.size()]);
  const StockPlan plan = plan_stock(lengths, rules);
  check_plan(plan, lengths, rules);
  CHECK(static_cast<double>(plan.bought) <= 1.01 * static_cast<double>(plan.bound));
}

TEST_CASE("the same pieces in another order give the same plan") {
  std::mt19937 random(25);
  const StockRules rules{{4200000, 6000000}, 4000, 0};
  auto lengths = random_lengths(random, 80, 5000, 60, 800);
  const StockPlan first = plan_stock(lengths, rules);
  std::shuffle(lengths.begin(), lengths.end(), random);
  const StockPlan second = plan_stock(lengths, rules);
  REQUIRE(first.patterns.size() == second.patterns.size());
  for (std::size_t i = 0; i < first.patterns.size(); ++i) {
    CHECK(first.patterns[i].times == second.patterns[i].times);
    CHECK(first.patterns[i].pattern.pieces == second.patterns[i].pattern.pieces);
  }
}

TEST_CASE("a piece as long as the longest bar takes one without a cut") {
  const std::vector<Micrometres> lengths{6000000, 6000000};
  const StockPlan plan = plan_stock(lengths, {{6000000}, 4000, 0});
  CHECK(plan.bought == 12000000);
  CHECK(plan.bound == 12000000);
}

TEST_CASE("no pieces buy nothing") {
  const StockPlan plan = plan_stock({}, {{6000000}, 4000, 0});
  CHECK(plan.patterns.empty());
  CHECK(plan.bought == 0);
}

TEST_CASE("a handful of pieces is cut from the least stock") {
  // 2.9 + 2.9 fit six metres; 3.0 alone takes the short bar: 9 m, where pairing 3.0 with 2.9 would buy 9 m or more.
  const auto demands = demands_of({2900, 3000, 2900});
  const auto bars = exact_bars(demands, {{3000, 6000}, 4, 0});
  Micrometres bought = 0;
  for (const CutPattern& bar : bars) bought += bar.stock;
  CHECK(bought == 9000);
}
