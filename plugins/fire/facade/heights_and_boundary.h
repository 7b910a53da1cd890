// Heights above ground and the distance to the boundary that fire rules ask for. Storey elevations stand in the
// building's own datum; the world's z, in which panels are placed, is never read.
#pragma once

#include <optional>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier::fire {

/// Height in m of the floor of the top storey above ground: setting building.top_storey_height_m, else the highest
/// storey's elevation less building.ground_level_m (of the ground, in the same datum). None when neither can be told.
std::optional<Sourced<double>> top_storey_height_m(const Project& project, const Settings& settings);

/// What to say when there is none.
inline constexpr const char* kTopStoreyMissing =
    "setting building.top_storey_height_m, or building.ground_level_m with storey elevations";

/// Distance in m to the relevant boundary: the panel's own (Panel_FireRequirement.BoundaryDistance), else that of the
/// building (setting building.boundary_distance_m). May be negative: the caller refuses it.
std::optional<Sourced<double>> boundary_distance_m(const Panel& panel, const Settings& settings);

/// What the panel's top above ground follows from: it is taken to stand on the floor of its storey.
struct PanelTop {
  Sourced<double> floor_m;   ///< elevation of its storey's floor
  Sourced<double> ground_m;  ///< building.ground_level_m, in the same datum
  double panel_height_m = 0.0;

  /// Heights in m above ground, of the foot and of the top.
  double foot_m() const { return floor_m.value - ground_m.value; }
  double height_m() const { return foot_m() + panel_height_m; }
};

/// None when the storey or the ground level is not known.
std::optional<PanelTop> panel_top(const Panel& panel, const Project& project, const Settings& settings);

}  // namespace panel_dossier::fire
