// The uplift at the ends of sheathing under a racking load and the tie-downs that hold it.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/api/model/panel.h"
#include "plugins/structural/racking/strips.h"

namespace panel_dossier::structural {

/// Uplift at one vertical edge of the sheathing, for the direction of load that lifts it.
struct Uplift {
  double x_m = 0.0;
  double pull_n = 0.0;              ///< Σ Fi,v,Ed·h/bi of the strips that end here; where strips meet, less the push
  bool begins = true;               ///< sheathing begins here, so a load to the right lifts it; else one to the left
  double held_down_n = 0.0;         ///< permanent load on half of the sheathing beside it
  std::optional<std::size_t> part;  ///< the tie-down here, index into Panel::parts
  std::optional<double> resistance_n;  ///< its Panel_Fastener.DesignTension, > 0

  double force_n() const { return pull_n > held_down_n ? pull_n - held_down_n : 0.0; }
  double use() const { return resistance_n ? force_n() / *resistance_n : 0.0; }
};

/// From left to right, edges without a pull left out. A tie-down (ObjectType TIE_DOWN or HOLD_DOWN) serves an edge that
/// its box comes within 200 mm of (common practice: it stands at the end stud); of several the weakest.
std::vector<Uplift> uplifts(const Panel& panel, const std::vector<RackingStrip>& strips, double held_down_n_per_m);

}  // namespace panel_dossier::structural
