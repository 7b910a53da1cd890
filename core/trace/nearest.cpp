#include "core/trace/nearest.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace panel_dossier {

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = std::exchange(row[0], i + 1);
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t substitution = diagonal + (a[i] == b[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({substitution, diagonal + 1, row[j] + 1});
    }
  }
  return row.back();
}

std::vector<std::string> nearest(std::string_view wanted, const std::vector<std::string>& names, std::size_t most) {
  std::vector<std::pair<std::size_t, std::string>> ranked;
  for (const auto& name : names) {
    const std::size_t distance = edit_distance(wanted, name);
    if (2 * distance <= std::max(wanted.size(), name.size())) ranked.emplace_back(distance, name);
  }
  std::ranges::stable_sort(ranked, {}, [](const auto& entry) { return entry.first; });
  std::vector<std::string> result;
  for (const auto& [distance, name] : ranked) {
    if (result.size() < most) result.push_back(name);
  }
  return result;
}

}  // namespace panel_dossier
