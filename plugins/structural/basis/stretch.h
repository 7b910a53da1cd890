// A stretch along a line: of a façade, a height, a rail or a sheet.
#pragma once

#include <algorithm>

namespace panel_dossier::structural {

/// In m, from < to.
struct Stretch {
  double from_m = 0.0;
  double to_m = 0.0;

  double length_m() const { return to_m - from_m; }
};

/// What two stretches share; 0 where they touch, negative by the gap where they stand apart.
inline double overlap_m(const Stretch& a, const Stretch& b) {
  return std::min(a.to_m, b.to_m) - std::max(a.from_m, b.from_m);
}

}  // namespace panel_dossier::structural
