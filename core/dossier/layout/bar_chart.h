// Horizontal bars over one axis, with a legend of fills that stay distinct in black and white.
#pragma once

#include "core/api/finding/drawing.h"
#include "core/dossier/layout/pdf_document.h"

namespace panel_dossier {

/// Height that the chart takes at the width, in points. Grows with the number of bars; less makes the bars
/// thinner.
double bar_chart_height(const PdfDocument& pdf, const BarChart& chart, double width);

/// Draws title, axis, bars and legend into the area. Pieces of a part that the legend does not name are left out.
void draw_bar_chart(PdfDocument& pdf, std::size_t page, const BarChart& chart, const Rect& area);

}  // namespace panel_dossier
