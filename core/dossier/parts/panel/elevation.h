// The elevation of a panel: outline, framing, sheet joints, fixings, openings and dimensions.
#pragma once

#include <string>

#include "core/api/finding/drawing.h"
#include "core/api/model/panel.h"
#include "core/dossier/layout/drawing_view.h"
#include "core/dossier/parts/book.h"

namespace panel_dossier {

/// Width left of the panel that its dimension lines take up at any scale, in points on paper.
inline constexpr double kDimensionBand = 46.0;

/// Height that the dimension lines below the panel and the figures of its brackets and lifting points below and above
/// it take up, in points on paper.
double bands_up(const Panel& panel);

/// Seen from inside, in the panel's x-z plane. Dimension lines stand at distances that look alike at every scale, so
/// the scale must be known. A panel without parts is drawn as its outline and openings.
Drawing elevation_drawing(const Panel& panel, double scale);

/// The scale at which the panel and its dimension lines fit into `area`.
double elevation_scale(const Panel& panel, const Rect& area);

/// What the drawing cannot show, in words; empty when it is complete.
std::string missing_in_elevation(const Panel& panel);

/// Whether studs and dimensions of an elevation at that scale can be told apart on paper.
bool is_legible(double scale);

/// Draws it into the area of the current page, under a caption that states its scale. Returns the scale.
double draw_elevation(Book& book, const Panel& panel, const Rect& area);

}  // namespace panel_dossier
