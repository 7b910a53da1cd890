// The drawings of a panel sheet: the elevation with outline, framing, sheet joints, openings and dimensions, and the
// horizontal section through the layers, side by side or one above the other.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/dossier/layout/drawing_view.h"
#include "core/dossier/parts/book.h"

namespace panel_dossier {

/// Width and height around the panel that its dimension lines take up at any scale, in points on paper.
inline constexpr double kDimensionBand = 44.0;

/// Seen from inside, in the panel's x-z plane. Dimension lines stand at distances that look alike at every scale, so
/// the scale must be known. A panel without parts is drawn as its outline and openings.
Drawing elevation_drawing(const Panel& panel, double scale);

/// The scale at which the panel and its dimension lines fit into `area`.
double elevation_scale(const Panel& panel, const Rect& area);

/// What the drawing cannot show, in words; empty when it is complete.
std::string missing_in_elevation(const Panel& panel);

/// What stands beside one layer.
struct LayerLabel {
  double y_m = 0.0;  ///< middle of the layer
  std::string text;  ///< thickness and material
};

struct BuildUpSection {
  Drawing drawing;                 ///< inside at the bottom, x to the right as seen from inside
  std::vector<LayerLabel> labels;  ///< from inside to outside
  double cut_height_m = 0.0;       ///< above the panel's foot
  double length_m = 0.0;           ///< of the part that is shown
};

/// Cuts at the height where most framing is met outside openings, and shows `length_m` of the panel from its left
/// edge, or the whole panel where that is shorter. Without layers the drawing shows the outline alone.
BuildUpSection build_up_section(const Panel& panel, const Project& project, double length_m);

/// The hatch for a category of material (`wood`, `insulation`, …) and a name, both as the export gives them.
Hatch hatch_for_material(const std::string& category, const std::string& name);

/// Draws both over the page's width and a height of at most `height` points, with captions that state the scales.
/// Returns the scale of the elevation.
double write_panel_drawings(Book& book, const Panel& panel, double height);

/// Whether studs and dimensions of an elevation at that scale can be told apart on paper.
bool is_legible(double scale);

/// The elevation alone over the rest of the page.
void write_large_elevation(Book& book, const Panel& panel);

/// The section alone, with its layers named beside it.
void write_build_up(Book& book, const Panel& panel, double height);

/// Moves label centres apart so that none overlaps its neighbour, keeping their order and staying within low..high
/// where they fit. `wanted` ascends; `heights` are those of the labels.
std::vector<double> spread_labels(const std::vector<double>& wanted, const std::vector<double>& heights, double low,
                                  double high);

}  // namespace panel_dossier
