// Where the panels stand: a plan for each storey and a view of each face of the building.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/api/model/project.h"
#include "core/dossier/layout/drawing_view.h"

namespace panel_dossier {

/// An opening as it is drawn: what is left out of the panel, and the lines of a window in it.
struct OpeningSign {
  Polygon gap;                 ///< metres of the drawing
  std::vector<Segment> panes;  ///< metres of the drawing; none for a door or a bare opening
};

/// One key drawing with the panels it shows.
struct KeyView {
  std::string title;
  Drawing drawing;                                 ///< outlines without labels
  std::vector<std::size_t> panels;                 ///< indices into Project::panels, one a polygon of the drawing
  std::vector<std::vector<OpeningSign>> openings;  ///< of each of these panels
  std::size_t from_below = 0;  ///< the last so many panels stand on a lower storey and pass this one
};

/// Plan of one storey in world x-y: its panels, and behind them those of lower storeys of the same building that reach
/// at least a metre above its floor, each with the openings whose middle lies at the height of this storey. Of the
/// panels without a storey for none. Where storeys have no elevation, panels stand on their own storey alone.
KeyView storey_plan(const Project& project, std::optional<std::size_t> storey);

/// The faces of all panels that look the same way, seen from outside, in the world's horizontal and height; grouped
/// by their outward direction in steps of 45° and named after it with true north taken into account. Panels whose
/// outer face is unknown are left out.
std::vector<KeyView> facade_views(const Project& project);

/// Paints the sign of an opening over the filled outline of its panel.
void draw_opening(PdfDocument& pdf, std::size_t page, const OpeningSign& sign, const DrawingFrame& frame);

/// The point of the compass (`north`, `north-east`, …) nearest to a direction given as bearing in radians, clockwise
/// from north.
std::string compass_point(double bearing_rad);

}  // namespace panel_dossier
