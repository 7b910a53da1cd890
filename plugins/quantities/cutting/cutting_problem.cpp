#include "plugins/quantities/cutting/cutting_problem.h"

#include <algorithm>
#include <functional>

namespace panel_dossier::quantities {

std::vector<LengthDemand> demands_of(std::vector<Micrometres> lengths) {
  std::sort(lengths.begin(), lengths.end(), std::greater<>());
  std::vector<LengthDemand> demands;
  for (const Micrometres length : lengths) {
    if (demands.empty() || demands.back().length != length) demands.push_back({length, 0});
    ++demands.back().count;
  }
  return demands;
}

Micrometres taken_by(const CutPattern& pattern, const std::vector<LengthDemand>& demands, Micrometres kerf) {
  Micrometres taken = 0;
  for (const auto& [item, count] : pattern.pieces) taken += count * (demands[item].length + kerf);
  return taken;
}

}  // namespace panel_dossier::quantities
