// Cutting plans against instances of the literature, the integer solver of GLPK and published bounds.
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <random>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "core/api/support/words.h"
#include "plugins/quantities/cutting/stock_plan.h"
#include "tests/quantities/repeated_lengths.h"
#include "tests/support/cutting_reference.h"

using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;
using panel_dossier::testing::CuttingReference;

// Paper rolls 5600 mm wide cut into thirteen widths, the worked example of the encyclopaedic literature on the problem:
// 73 rolls, which a lower bound of the linear program (72.7 rolls) proves (from memory).
TEST_CASE("thirteen widths from rolls of 5600 mm need 73 rolls") {
  const auto widths = repeated({{1380, 22},
                                {1520, 25},
                                {1560, 12},
                                {1710, 14},
                                {1820, 18},
                                {1880, 18},
                                {1930, 20},
                                {2000, 10},
                                {2050, 12},
                                {2100, 14},
                                {2140, 16},
                                {2150, 18},
                                {2200, 20}});
  const StockPlan plan = plan_stock(widths, {{5600}, 0, 0});
  CHECK(plan.bought == 73 * 5600);
  CHECK(plan.bound == 73 * 5600);
}

// Raws of 100 inches, finals 97 of 45, 610 of 36, 395 of 31 and 211 of 14 inches: 452.25 raws in fractions, 453 whole.
// Chvátal, Linear Programming, 1983, chapter 13 (from memory).
TEST_CASE("Chvátal's example needs 453 raws") {
  const auto finals = repeated({{45, 97}, {36, 610}, {31, 395}, {14, 211}});
  const StockPlan plan = plan_stock(finals, {{100}, 0, 0});
  CHECK(plan.bought == 453 * 100);
  CHECK(plan.bound == 453 * 100);
}

// On the instance where first fit needs 11 bins, nine are enough (Johnson and others, 1974; see
// quantities_workshop_test.cpp).
TEST_CASE("the plan finds the nine full bins that first-fit decreasing misses") {
  const Micrometres e = 10;
  const auto lengths = repeated({{5000 + e, 6}, {2500 + 2 * e, 6}, {2500 + e, 6}, {2500 - 2 * e, 12}});
  const StockPlan plan = plan_stock(lengths, {{10000}, 0, 0});
  CHECK(plan.bought == 9 * 10000);
  CHECK(plan.bound == 9 * 10000);
}

// Falkenauer's triplets t60, set binpack5 of the ESICUP collection (JeroenGar/datasets, 1d/falkenauer), read in 2026:
// sixty pieces for bars of 100.0, three to each of the twenty bars of the optimum, which is sure by construction. Ten
// of them, in quantities_cutting_t60.csv; lengths there have one decimal. Exact.
TEST_CASE("the triplets of the collection are cut from twenty bars") {
  std::ifstream file(PANEL_DOSSIER_SOURCE_DIR "/tests/published/quantities_cutting_t60.csv");
  std::string line;
  REQUIRE(std::getline(file, line));
  int instances = 0;
  while (std::getline(file, line)) {
    const auto fields = panel_dossier::csv_fields(line);
    REQUIRE(fields);
    REQUIRE(fields->size() == 4);
    INFO(fields->front());
    std::istringstream numbers(fields->back());
    std::vector<Micrometres> lengths;
    for (double length = 0.0; numbers >> length;) lengths.push_back(std::llround(length * 10.0));
    REQUIRE(lengths.size() == 60);
    const StockPlan plan = plan_stock(lengths, {{1000}, 0, 0});
    CHECK(plan.bound == 20 * 1000);
    CHECK(plan.bought == 20 * 1000);
    ++instances;
  }
  CHECK(instances == 10);
}

// Debian, glpk-utils, examples/bpp.mod, read in 2026: six pieces for bins of 100, optimum 3. Exact.
TEST_CASE("the bin packing of GLPK's example needs three bins") {
  const StockPlan plan = plan_stock({50, 60, 30, 70, 50, 40}, {{100}, 0, 0});
  CHECK(plan.bought == 3 * 100);
  CHECK(plan.bound == 3 * 100);
}

// GLPK 5.0, glpsol: integer optimum over every pattern. Whole instances of several stock lengths with a kerf.
TEST_CASE("small plans lie between the bound and one bar above the optimum of GLPK") {
  REQUIRE(panel_dossier::testing::glpk_is_there());  // bash .ci/install --tests
  std::mt19937 random(11);
  std::uniform_int_distribution<Micrometres> length(500, 2900);
  std::uniform_int_distribution<int> count(1, 30);
  const StockRules rules{{3000, 4200, 6000}, 4, 0};
  int optimal = 0;
  constexpr int kInstances = 12;
  for (int i = 0; i < kInstances; ++i) {
    std::vector<std::pair<Micrometres, int>> wanted;
    for (int k = 0; k < 5; ++k) wanted.emplace_back(length(random), count(random));
    const StockPlan plan = plan_stock(repeated(wanted), rules);
    const Micrometres optimum = CuttingReference(plan.demands, rules).optimum();
    INFO("instance " << i << ": bound " << plan.bound << ", optimum " << optimum << ", plan " << plan.bought);
    CHECK(plan.bound <= optimum);
    CHECK(plan.bought >= optimum);
    // Rounding may cost a bar; the shortest bar is the least it can cost.
    CHECK(plan.bought <= optimum + 3000);
    optimal += plan.bought == optimum ? 1 : 0;
  }
  // Plans of few bars are rounded to the optimum as a rule.
  CHECK(optimal >= kInstances / 2);
}
