// Separating function of a wall to EN 1995-1-2:2004 annex E, for a cavity filled with mineral wool and one board a
// face.
#pragma once

#include <string>
#include <vector>

#include "plugins/fire/calculation/build_up.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// Annex E covers assemblies up to this period, E1(1).
inline constexpr double kAnnexELimit_min = 60.0;

struct LayerContribution {
  std::string name;
  double thickness_mm = 0.0;
  double basic_min = 0.0;        ///< tins,0 (E.2 to E.7)
  double position_factor = 1.0;  ///< kpos, table E3
  double joint_factor = 1.0;     ///< kj, E2.6: joints on framing
  Origin origin;                 ///< row of the data table behind tins,0

  double minutes() const { return basic_min * position_factor * joint_factor; }
};

struct SeparatingFunction {
  std::vector<LayerContribution> layers;  ///< from the fire to the unexposed side
  std::vector<std::string> missing;       ///< not empty: `layers` is incomplete

  /// tins = Σ tins,0·kpos·kj (E.1), not cut off at the limit of annex E.
  double insulation_time_min() const;
};

/// Fire on the inner or the outer face of the cassette.
SeparatingFunction separating_function(const Cassette& cassette, const Panel& panel, const Tables& tables,
                                       bool fire_inside);

/// kpos of a board on the fire's side in front of mineral wool, (E.8): 0.02·hp + 0.54, at most 1.
double exposed_position_factor(double thickness_mm);

/// kpos of a board on the unexposed side behind glass wool, (E.9): 0.07·hp − 0.17, not below 0.
double unexposed_position_factor_behind_glass_wool(double thickness_mm);

}  // namespace panel_dossier::fire
