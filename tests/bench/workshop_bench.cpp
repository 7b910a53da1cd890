// A batch of 20 000 framing pieces cut from bars and 5 000 pieces cut from sheets, as a panel workshop has them; small
// instances beside the integer optimum of GLPK in the same run. Prints how far each plan may lie above the optimum.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <random>
#include <vector>

#include "plugins/quantities/cutting/stock_plan.h"
#include "plugins/quantities/sheets/sheet_nesting.h"
#include "tests/support/cutting_reference.h"

namespace {

using namespace panel_dossier;
using namespace panel_dossier::quantities;

constexpr double kPercent = 100.0;
constexpr std::size_t kFramingPieces = 20000;
constexpr std::size_t kSections = 5;
/// Different lengths in a section: a project of many panel types and storey heights.
constexpr std::size_t kLengthsInSection = 120;
constexpr std::size_t kSheetPieces = 5000;
/// Panels of one batch share their offcuts.
constexpr std::size_t kPiecesInBatch = 500;

const StockRules kStock{{3000000, 4200000, 4800000, 6000000}, 4000, 30000};

std::vector<Micrometres> framing(unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_int_distribution<int> half_millimetres(400, 9000);
  std::vector<Micrometres> kinds;
  for (std::size_t i = 0; i < kLengthsInSection; ++i) kinds.push_back(half_millimetres(random) * Micrometres{500});
  std::uniform_int_distribution<std::size_t> kind(0, kinds.size() - 1);
  std::vector<Micrometres> lengths;
  for (std::size_t i = 0; i < kFramingPieces / kSections; ++i) lengths.push_back(kinds[kind(random)]);
  return lengths;
}

void bars_for_20000_pieces(benchmark::State& state) {
  Micrometres bought = 0;
  Micrometres bound = 0;
  for (auto _ : state) {
    bought = bound = 0;
    for (unsigned section = 0; section < kSections; ++section) {
      const StockPlan plan = plan_stock(framing(section), kStock);
      bought += plan.bought;
      bound += plan.bound;
    }
  }
  state.counters["pieces"] = static_cast<double>(kFramingPieces);
  state.counters["proven_gap_percent"] = kPercent * (metres(bought) / metres(bound) - 1.0);
}
BENCHMARK(bars_for_20000_pieces)->Unit(benchmark::kMillisecond)->Iterations(1);

/// Boards of panels up to 1.2 m by 3 m: whole ones, strips beside openings and odd ends.
std::vector<FlatSize> boards(unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_int_distribution<int> centimetres_wide(10, 120);
  std::uniform_int_distribution<int> centimetres_long(20, 300);
  std::vector<FlatSize> pieces;
  for (std::size_t i = 0; i < kPiecesInBatch; ++i) {
    const bool whole_width = i % 3 == 0;
    pieces.push_back({whole_width ? Micrometres{1200000} : centimetres_wide(random) * Micrometres{10000},
                      centimetres_long(random) * Micrometres{10000}});
  }
  return pieces;
}

void nest(benchmark::State& state, bool may_turn) {
  const SheetRules rules{{{1200000, 2400000}, {1200000, 3000000}}, 4000, may_turn};
  double bought_m2 = 0.0;
  double bound_m2 = 0.0;
  for (auto _ : state) {
    bought_m2 = bound_m2 = 0.0;
    for (unsigned batch = 0; batch < kSheetPieces / kPiecesInBatch; ++batch) {
      const std::vector<FlatSize> pieces = boards(batch);
      bought_m2 += bought_area_m2(nest_sheets(pieces, rules));
      bound_m2 += sheet_area_bound_m2(pieces, rules);
    }
  }
  state.counters["pieces"] = static_cast<double>(kSheetPieces);
  state.counters["proven_gap_percent"] = kPercent * (bought_m2 / bound_m2 - 1.0);
}

void sheets_for_5000_pieces_with_grain(benchmark::State& state) {
  nest(state, false);
}
BENCHMARK(sheets_for_5000_pieces_with_grain)->Unit(benchmark::kMillisecond)->Iterations(1);

void sheets_for_5000_pieces_turned(benchmark::State& state) {
  nest(state, true);
}
BENCHMARK(sheets_for_5000_pieces_turned)->Unit(benchmark::kMillisecond)->Iterations(1);

/// All 5 000 in one batch, as a project without batches has them.
void sheets_for_one_batch_of_5000(benchmark::State& state) {
  const SheetRules rules{{{1200000, 2400000}}, 4000, false};
  std::vector<FlatSize> pieces;
  for (unsigned batch = 0; batch < kSheetPieces / kPiecesInBatch; ++batch) {
    for (const FlatSize& piece : boards(batch)) {
      pieces.push_back({piece.width, std::min(piece.length, rules.sizes.front().length)});
    }
  }
  double bought_m2 = 0.0;
  for (auto _ : state) bought_m2 = bought_area_m2(nest_sheets(pieces, rules));
  state.counters["pieces"] = static_cast<double>(pieces.size());
  state.counters["proven_gap_percent"] = kPercent * (bought_m2 / sheet_area_bound_m2(pieces, rules) - 1.0);
}
BENCHMARK(sheets_for_one_batch_of_5000)->Unit(benchmark::kMillisecond)->Iterations(1);

/// Ten instances of six lengths: length bought by the own plans over the optimum that GLPK proves.
void small_plans_over_optimum(benchmark::State& state) {
  if (!testing::glpk_is_there()) {
    state.SkipWithError("glpsol is not installed: bash .ci/install --benchmarks");
    return;
  }
  std::mt19937 random(3);
  std::uniform_int_distribution<Micrometres> millimetres(600, 2900);
  std::uniform_int_distribution<int> count(1, 40);
  const StockRules rules{{3000000, 4200000, 6000000}, 4000, 0};
  Micrometres bought = 0;
  Micrometres optimum = 0;
  for (auto _ : state) {
    for (int i = 0; i < 10; ++i) {
      std::vector<Micrometres> lengths;
      for (int k = 0; k < 6; ++k) {
        lengths.insert(lengths.end(), static_cast<std::size_t>(count(random)), millimetres(random) * 1000);
      }
      const StockPlan plan = plan_stock(lengths, rules);
      bought += plan.bought;
      optimum += testing::CuttingReference(plan.demands, rules).optimum();
    }
  }
  state.counters["own_over_glpk"] = metres(bought) / metres(optimum);
}
BENCHMARK(small_plans_over_optimum)->Unit(benchmark::kMillisecond)->Iterations(1);

}  // namespace

BENCHMARK_MAIN();
