// How high a panel stands above ground: the one rule for wind and every other check that asks.
#pragma once

#include <optional>
#include <string>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier::structural {

/// Ground beside the building, in the height system of the panels' placements.
struct GroundLevel {
  Sourced<double> level_m;
  bool assumed = false;  ///< the lowest storey's elevation stands for it, for no setting gives it
};

/// Setting `building.ground_level_m`, else the elevation of the lowest storey; none when neither is known.
std::optional<GroundLevel> ground_level(const Project& project, const Settings& settings);

struct HeightAboveGround {
  double foot_m = 0.0;  ///< negative where the panel's foot reaches below ground
  double top_m = 0.0;
};

/// Of an upright panel. Not finite when the placement or the height of the panel is not.
HeightAboveGround height_above_ground(const Panel& panel, const GroundLevel& ground);

/// What to tell the reader of a finding that rests on an assumed ground level; empty when it was given.
std::string ground_note(const GroundLevel& ground);

}  // namespace panel_dossier::structural
