// Panels that stand in one another.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/api/model/project.h"

namespace panel_dossier {

/// Two panels whose boxes share a place.
struct PanelOverlap {
  std::size_t one = 0;  ///< indices into Project::panels
  std::size_t other = 0;
  std::string text;  ///< names both and what they share
};

/// Panels that stand parallel, within a few degrees, and share more than panels do that lap over one another at their
/// edges. Each panel of these stands in one overlap at least. Panels that meet at an angle are not held
/// against each other, for their boxes share the corner, nor those whose size is stated only: they have no shape that
/// stands anywhere.
std::vector<PanelOverlap> find_panel_overlaps(const Project& project);

}  // namespace panel_dossier
