#include "plugins/quantities/cutting/knapsack.h"

#include <algorithm>
#include <map>
#include <tuple>

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

}  // namespace panel_dossier::quantities
