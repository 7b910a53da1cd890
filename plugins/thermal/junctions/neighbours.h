// What stands beside the vertical edges, above and below a panel.
#pragma once

#include "core/api/model/panel.h"
#include "core/api/model/project.h"

namespace panel_dossier::thermal {

enum class Side { left, right };

enum class Meeting {
  nothing,          ///< no panel within reach
  straight,         ///< a panel in the same plane, across a joint
  external_corner,  ///< a panel square to this one; the corner points outwards
  internal_corner,  ///< likewise, pointing inwards
};

struct Neighbour {
  Meeting meeting = Meeting::nothing;
  const Panel* panel = nullptr;  ///< lives as long as the project; null for nothing
  double distance_m = 0.0;       ///< in plan, between the middles of the two edges
};

/// The nearest panel at a vertical edge among those that share at least half of the lower one's height. In the same
/// plane it counts within a joint of 60 mm, square to it within 0.75 m, which leaves room for a column in the corner.
Neighbour neighbour_at(const Panel& panel, Side side, const Project& project);

/// True when a panel in the same plane starts within 100 mm above the head of this one, or ends so below its foot.
bool continues_above(const Panel& panel, const Project& project);
bool continues_below(const Panel& panel, const Project& project);

}  // namespace panel_dossier::thermal
