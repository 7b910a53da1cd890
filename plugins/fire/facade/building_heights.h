// Heights above ground that fire rules ask for. Storey elevations stand in the building's own datum; the world's z, in
// which panels are placed, is never read.
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

/// Height in m of the panel's top above ground: elevation of its storey's floor, on which it is taken to stand, less
/// building.ground_level_m, plus its own height. None when the storey or the level is not known.
std::optional<double> panel_top_height_m(const Panel& panel, const Project& project, const Settings& settings);

}  // namespace panel_dossier::fire
