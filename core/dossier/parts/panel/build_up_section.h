// The horizontal section through the layers of a panel, with their names beside it.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/dossier/layout/drawing_view.h"
#include "core/dossier/parts/book.h"

namespace panel_dossier {

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

/// Moves label centres apart so that none overlaps its neighbour, keeping their order and staying within low..high
/// where they fit. `wanted` ascends; `heights` are those of the labels.
std::vector<double> spread_labels(const std::vector<double>& wanted, const std::vector<double>& heights, double low,
                                  double high);

/// Draws it into the area of the current page, under a caption that states its height and scale.
void draw_build_up(Book& book, const Panel& panel, const Rect& area);

}  // namespace panel_dossier
