#include "plugins/quantities/cutting/bar_packing.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <numeric>
#include <random>
#include <vector>

using namespace panel_dossier::quantities;

namespace {

Micrometres used_of(const Bar& bar, const std::vector<Micrometres>& lengths, Micrometres kerf) {
  Micrometres used = kerf * static_cast<Micrometres>(bar.pieces.size() - 1);
  for (const std::size_t piece : bar.pieces) used += lengths[piece];
  return used;
}

/// Fewest bars by trying every placement: piece by piece into every open bar or one new bar.
std::size_t exact_bars(const std::vector<Micrometres>& lengths, Micrometres stock, Micrometres kerf, std::size_t next,
                       std::vector<Micrometres>& free, std::size_t best) {
  if (free.size() >= best) return best;
  if (next == lengths.size()) return free.size();
  for (std::size_t i = 0; i < free.size(); ++i) {
    if (free[i] < lengths[next] + kerf) continue;
    free[i] -= lengths[next] + kerf;
    best = exact_bars(lengths, stock, kerf, next + 1, free, best);
    free[i] += lengths[next] + kerf;
  }
  free.push_back(stock - lengths[next]);
  best = exact_bars(lengths, stock, kerf, next + 1, free, best);
  free.pop_back();
  return best;
}

std::size_t exact_bars(const std::vector<Micrometres>& lengths, Micrometres stock, Micrometres kerf) {
  std::vector<Micrometres> free;
  return exact_bars(lengths, stock, kerf, 0, free, lengths.size());
}

std::vector<Micrometres> random_lengths(std::mt19937& random, std::size_t count, Micrometres longest) {
  std::uniform_int_distribution<Micrometres> length(longest / 20, longest);
  std::vector<Micrometres> lengths(count);
  for (Micrometres& value : lengths) value = length(random);
  return lengths;
}

}  // namespace

TEST_CASE("every piece lies in one bar and no bar is overfilled") {
  std::mt19937 random(5);
  const std::vector<Micrometres> stock{3000000, 6000000, 4200000, 4800000};
  const Micrometres kerf = 4000;
  const std::vector<Micrometres> lengths = random_lengths(random, 500, 6000000);
  std::vector<int> times(lengths.size());
  for (const Bar& bar : pack_bars(lengths, stock, kerf)) {
    REQUIRE(used_of(bar, lengths, kerf) <= bar.stock);
    REQUIRE(std::count(stock.begin(), stock.end(), bar.stock) == 1);
    for (const std::size_t piece : bar.pieces) ++times[piece];
  }
  CHECK(std::all_of(times.begin(), times.end(), [](int n) { return n == 1; }));
}

TEST_CASE("a bar is the shortest stock that holds its pieces") {
  const auto bars = pack_bars({2900000}, {6000000, 3000000, 4200000}, 4000);
  REQUIRE(bars.size() == 1);
  CHECK(bars[0].stock == 3000000);
}

TEST_CASE("two halves fit a bar only when the saw leaves room") {
  const std::vector<Micrometres> halves{3000000, 3000000};
  CHECK(pack_bars(halves, {6000000}, 0).size() == 1);
  CHECK(pack_bars(halves, {6000000}, 1).size() == 2);
  CHECK(pack_bars({3000000, 2996000}, {6000000}, 4000).size() == 1);
}

TEST_CASE("a piece as long as the stock takes a bar without a cut") {
  const auto bars = pack_bars({6000000}, {6000000}, 4000);
  CHECK(bars.size() == 1);
  CHECK(fewest_bars({6000000}, 6000000, 4000) == 1);
}

TEST_CASE("no pieces need no bars") {
  CHECK(pack_bars({}, {6000000}, 4000).empty());
  CHECK(fewest_bars({}, 6000000, 4000) == 0);
}

TEST_CASE("the bound is never above the exact optimum and the plan never below it") {
  std::mt19937 random(6);
  std::uniform_int_distribution<std::size_t> count(1, 9);
  for (int i = 0; i < 300; ++i) {
    const auto lengths = random_lengths(random, count(random), 1000);
    const Micrometres kerf = i % 3 * 5;
    const std::size_t optimum = exact_bars(lengths, 1000, kerf);
    const std::size_t plan = pack_bars(lengths, {1000}, kerf).size();
    const Micrometres total = std::accumulate(lengths.begin(), lengths.end(), Micrometres{0});
    REQUIRE(fewest_bars(lengths, 1000, kerf) <= optimum);
    REQUIRE(static_cast<Micrometres>(fewest_bars(lengths, 1000, kerf)) * 1000 >= total);
    REQUIRE(optimum <= plan);
    // First-fit decreasing needs at most 11/9 of the optimum and 6/9 of a bin: Dósa, The tight bound of first fit
    // decreasing bin-packing algorithm, 2007 (from memory).
    REQUIRE(9 * plan <= 11 * optimum + 6);
  }
}

TEST_CASE("the bound sees pieces that cannot share a bar") {
  // The total length asks for three bars; pieces over half a bar cannot share one.
  CHECK(fewest_bars({510, 510, 510, 510, 510}, 1000, 0) == 5);
}
