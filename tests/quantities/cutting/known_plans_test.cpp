// Plans whose optimum is known by construction, bounds and the knapsack by hand.
#include <catch2/catch.hpp>
#include <random>
#include <utility>
#include <vector>

#include "plugins/quantities/cutting/bar_packing.h"
#include "plugins/quantities/cutting/column_generation.h"
#include "plugins/quantities/cutting/stock_plan.h"
#include "tests/quantities/repeated_lengths.h"

using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

// Triplets after Falkenauer, A hybrid grouping genetic algorithm for bin packing, 1996 (from memory): three pieces fill
// each bar without waste, so the optimum is a third of the pieces by construction.
TEST_CASE("the bound is exact where triplets fill every bar") {
  std::vector<Micrometres> lengths;
  for (Micrometres i = 0; i < 40; ++i) {
    const Micrometres first = 380 + i;
    const Micrometres second = 260 + i;
    lengths.insert(lengths.end(), {first, second, 1000 - first - second});
  }
  CHECK(fewest_bars(lengths, 1000, 0) == 40);
  // By hand: first-fit decreasing pairs the forty pieces over 379, which leaves less than any other piece, then puts
  // three of the other eighty in each bar: 20 and 27.
  CHECK(pack_bars(lengths, {1000}, 0).size() == 47);
}

// n pieces just over half a bar need n bars, while total length
// over bar length says about n/2. Martello and Toth, Knapsack Problems, 1990, 8.3 (from memory).
TEST_CASE("pieces over half a bar each need a bar of their own") {
  CHECK(fewest_bars(repeated({{501, 20}}), 1000, 0) == 20);
}

// Triplets after Falkenauer, 1996 (from memory): each bin is filled by three pieces, so the optimum is known. They are
// the hardest instances for rounding, so one bin above the optimum is allowed and none below.
TEST_CASE("triplets are planned with one bin to spare at most") {
  std::mt19937 random(7);
  std::uniform_int_distribution<Micrometres> first(380, 490);
  std::vector<Micrometres> lengths;
  for (int i = 0; i < 40; ++i) {
    const Micrometres a = first(random);
    const Micrometres b = std::uniform_int_distribution<Micrometres>(250, (1000 - a) / 2)(random);
    lengths.insert(lengths.end(), {a, b, 1000 - a - b});
  }
  const StockPlan plan = plan_stock(lengths, {{1000}, 0, 0});
  CHECK(plan.bound == 40 * 1000);
  CHECK(plan.bought <= 41 * 1000);
}

// The bound of the linear program is never below the total length over the bar (L1 of Martello and Toth, Knapsack
// Problems, 1990, chapter 8; from memory) and here reaches L2, which counts pieces over half a bar.
TEST_CASE("the bound is at least L1 and sees pieces that cannot share") {
  const auto lengths = repeated({{501, 20}, {300, 3}});
  const StockRules rules{{1000}, 0, 0};
  const StockPlan plan = plan_stock(lengths, rules);
  CHECK(length_bound(plan.demands, rules) == 11 * 1000);
  CHECK(plan.bound == static_cast<Micrometres>(fewest_bars(lengths, 1000, 0)) * 1000);
  CHECK(plan.bound == 20 * 1000);
}

// Unbounded knapsack of capacity 10 with weights 3, 4, 5 and values 4, 5, 6: best 13 (3 + 3 + 4), by hand.
TEST_CASE("a small knapsack has the value found by hand") {
  const Knapsack knapsack({{0, 3, 4}, {1, 4, 5}, {2, 5, 6}}, 10);
  CHECK(knapsack.value(10) == 13);
  CHECK(knapsack.value(2) == 0);
  CHECK(knapsack.contents(10) == std::vector<std::pair<std::size_t, int>>{{0, 2}, {1, 1}});
}
