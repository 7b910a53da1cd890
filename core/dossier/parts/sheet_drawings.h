// The drawings of a panel sheet: elevation and build-up side by side or one above the other.
#pragma once

#include <vector>

#include "core/dossier/layout/book.h"

namespace panel_dossier {

/// Draws both into what is left of the page, with captions that state the scales.
void write_sheet_drawings(Book& book, const Panel& panel);

/// Moves label centres apart so that none overlaps its neighbour, keeping their order and staying within low..high
/// where they fit. `wanted` ascends; `heights` are those of the labels.
std::vector<double> spread_labels(const std::vector<double>& wanted, const std::vector<double>& heights, double low,
                                  double high);

}  // namespace panel_dossier
