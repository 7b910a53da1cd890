// Which panels stand beside, above and below a panel.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/api/model/project.h"

namespace panel_dossier {

/// Indices into Project::panels, as seen from inside.
struct PanelNeighbours {
  std::optional<std::size_t> left;
  std::optional<std::size_t> right;
  std::optional<std::size_t> above;
  std::optional<std::size_t> below;
};

/// Of each panel. A neighbour looks the same way, stands in the same plane within 0.3 m, shares half of the shorter of
/// the two edges, and is at most 0.15 m away to the side, 0.6 m upwards or downwards, for a floor may lie between. Of
/// several the nearest.
std::vector<PanelNeighbours> neighbours_of_panels(const Project& project);

}  // namespace panel_dossier
