#include "plugins/structural/wind/height.h"

namespace panel_dossier::structural {

std::optional<GroundLevel> ground_level(const Project& project, const Settings& settings) {
  if (const auto given = settings.number("building.ground_level_m")) return GroundLevel{*given, false};
  // Storeys stand in ascending order; those without an elevation say nothing.
  for (const Storey& storey : project.storeys) {
    if (storey.elevation_m) return GroundLevel{*storey.elevation_m, true};
  }
  return std::nullopt;
}

HeightAboveGround height_above_ground(const Panel& panel, const GroundLevel& ground) {
  const double foot_m = panel.frame.origin.z - ground.level_m.value;
  return {foot_m, foot_m + panel.height_m.value};
}

std::string ground_note(const GroundLevel& ground) {
  if (!ground.assumed) return {};
  return "Ground is taken at the lowest storey's elevation, for setting building.ground_level_m is not given.";
}

}  // namespace panel_dossier::structural
