// The façades of the building, found from where the panels stand, and how high they stand above ground.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/basis/stretch.h"

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

/// Panels that face one way on one block. Positions run along the façade to the right, seen from outside.
struct Facade {
  std::size_t block = 0;
  Vec3 outward;                     ///< unit vector, level
  Vec3 along;                       ///< unit vector to the right, seen from outside
  double from_m = 0.0;              ///< least and greatest position that any panel of the block reaches, so from corner
  double to_m = 0.0;                ///< to corner where the export holds all panels
  double depth_m = 0.0;             ///< extent of the block's panels square to the façade
  std::vector<std::size_t> panels;  ///< ascending indices into Project::panels
  bool rectangular = false;         ///< every façade of the block is parallel or square to this one
  std::size_t sides = 0;            ///< how many of the four sides of that rectangle have panels

  double extent_m() const { return to_m - from_m; }
};

struct FacadeLayout {
  std::vector<Facade> facades;                     ///< block by block, in the order in which panels name them
  std::vector<std::optional<std::size_t>> facade;  ///< of each panel; none: not upright, outside or placement unknown
};

/// A block is all panels of one building (IfcBuilding), or with setting `building.block_gap_m` those of its parts that
/// stand further apart than that along the project's x or y axis.
FacadeLayout lay_out_facades(const Project& project, const Settings& settings);

/// Where a panel reaches along a façade.
Stretch extent_along(const Panel& panel, const Vec3& along);

/// `facing south-west (bearing 225° from true north)`.
std::string facade_name(const Facade& facade, const Project& project);

}  // namespace panel_dossier::structural
