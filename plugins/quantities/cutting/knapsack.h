// The unbounded knapsack over whole units of length: what the best filling of every capacity is worth.
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace panel_dossier::quantities {

struct KnapsackItem {
  std::size_t id = 0;       ///< the caller's own; returned in `contents`
  std::int64_t weight = 0;  ///< in units, positive
  std::int64_t value = 0;   ///< items worth nothing or less are passed over
};

/// Solved once, for every capacity up to the largest, by dynamic programming in whole numbers, so exactly.
/// O(items·capacity) time, O(capacity) memory. Deterministic; immutable after construction.
class Knapsack {
 public:
  /// Precondition: `capacity` >= 0 and below 2³¹; sums of values within the capacity fit 63 bits.
  Knapsack(std::vector<KnapsackItem> items, std::int64_t capacity);

  /// Largest total value of items whose weights add up to at most `capacity`. Precondition: 0 <= capacity <= the
  /// constructor's.
  std::int64_t value(std::int64_t capacity) const { return best_[static_cast<std::size_t>(capacity)]; }
  /// A filling of that value: item id and how often, by ascending weight.
  std::vector<std::pair<std::size_t, int>> contents(std::int64_t capacity) const;

 private:
  std::vector<KnapsackItem> items_;
  std::vector<std::int64_t> best_;
  std::vector<std::uint32_t> last_item_;  ///< index + 1 of the item put in last; 0: a unit stays empty
};

}  // namespace panel_dossier::quantities
