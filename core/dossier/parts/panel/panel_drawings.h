// The drawings of a panel sheet: elevation and build-up section, side by side or one above the other.
#pragma once

#include "core/api/model/panel.h"
#include "core/dossier/parts/book.h"

namespace panel_dossier {

/// Draws both over the page's width and a height of at most `height` points, with captions that state the scales.
/// Returns the scale of the elevation.
double write_panel_drawings(Book& book, const Panel& panel, double height);

/// The elevation alone over the rest of the page.
void write_large_elevation(Book& book, const Panel& panel);

/// The section alone, with its layers named beside it.
void write_build_up(Book& book, const Panel& panel, double height);

}  // namespace panel_dossier
