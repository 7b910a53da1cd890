// What the studs of a panel press on its rails and brackets.
#pragma once

#include <cstddef>

#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

/// The stud that presses hardest on the rails, per pascal of wind, and what persons leaning on it add.
struct StudReaction {
  std::size_t member = 0;
  double per_line_load_m = 0.0;  ///< largest reaction of 1 N/m across the stud
  double width_m = 0.0;          ///< of wall that it carries
  double spacing_m = 0.0;        ///< to its nearer neighbour; 0 without one
  double barrier_share = 0.0;    ///< largest reaction of 1 N at the height of the barrier; 0 where the panel is none
};

/// `design` has nothing missing.
StudReaction hardest_stud(const StudDesign& design);

}  // namespace panel_dossier::structural
