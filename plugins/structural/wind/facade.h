// The façades of the building, found from where the panels stand.
#pragma once

#include <cstddef>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier::structural {

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

/// Extent of a panel along a façade.
struct PanelExtent {
  double from_m = 0.0;
  double to_m = 0.0;
};
PanelExtent extent_along(const Panel& panel, const Vec3& along);

/// `facing south-west (bearing 225° from true north)`.
std::string facade_name(const Facade& facade, const Project& project);

/// Lays the façades out once a project instead of once a panel, which would take time with the square of the panels.
/// Thread-safe. A project must not change between calls; the settings are those of the project.
class FacadeCache {
 public:
  std::shared_ptr<const FacadeLayout> of(const Project& project, const Settings& settings);

 private:
  std::mutex mutex_;
  const Panel* panels_ = nullptr;
  std::size_t count_ = 0;
  std::shared_ptr<const FacadeLayout> layout_;
};

}  // namespace panel_dossier::structural
