// Stretches along a line, and how much of one others reach over.
#pragma once

#include <algorithm>
#include <vector>

namespace panel_dossier::fire {

/// From one place along a line to another, in m; `from` <= `to`, else it covers nothing.
struct Stretch {
  double from = 0.0;
  double to = 0.0;

  double length_m() const { return to - from; }
};

/// Length in m of `line` that none of `covers` reaches over; they may overlap and reach beyond its ends.
inline double bare_length_m(const Stretch& line, std::vector<Stretch> covers) {
  std::sort(covers.begin(), covers.end(), [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
  double bare_m = 0.0;
  double reached = line.from;
  for (const Stretch& cover : covers) {
    if (cover.to <= reached || cover.from >= line.to) continue;
    bare_m += std::max(0.0, cover.from - reached);
    reached = cover.to;
  }
  return bare_m + std::max(0.0, line.to - reached);
}

}  // namespace panel_dossier::fire
