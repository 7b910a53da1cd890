// Where the panels stand: a plan for each storey and a view of each face of the building.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/api/model/project.h"

namespace panel_dossier {

/// One key drawing with the panels it shows.
struct KeyView {
  std::string title;
  Drawing drawing;                  ///< outlines without labels
  std::vector<std::size_t> panels;  ///< indices into Project::panels, one a polygon of the drawing
};

/// Plan of the panels of one storey in world x-y; of the panels without a storey for none.
KeyView storey_plan(const Project& project, std::optional<std::size_t> storey);

/// The faces of all panels that look the same way, seen from outside, in the world's horizontal and height; grouped
/// by their outward direction in steps of 45° and named after it with true north taken into account. Panels whose
/// outer face is unknown are left out.
std::vector<KeyView> facade_views(const Project& project);

/// The point of the compass (`north`, `north-east`, …) nearest to a direction given as bearing in radians, clockwise
/// from north.
std::string compass_point(double bearing_rad);

}  // namespace panel_dossier
