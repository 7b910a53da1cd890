// Demands of the cutting problems in the literature, which are printed as lengths with counts.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

#include "plugins/quantities/cutting/bar_packing.h"

namespace panel_dossier::quantities::test {

inline std::vector<Micrometres> repeated(const std::vector<std::pair<Micrometres, int>>& lengths) {
  std::vector<Micrometres> all;
  for (const auto& [length, count] : lengths) all.insert(all.end(), static_cast<std::size_t>(count), length);
  return all;
}

}  // namespace panel_dossier::quantities::test
