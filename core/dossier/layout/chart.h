// Line charts with labelled axes and a legend, and horizontal bars over one axis whose fills stay distinct in black and
// white.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/dossier/layout/pdf_document.h"

namespace panel_dossier {

inline constexpr TextStyle kChartLabel{Face::regular, 8.0, 9.5, kInk};
inline constexpr TextStyle kChartTitle{Face::bold, 8.0, 10.0, kInk};

/// Round axis values (steps of 1, 2 or 5 times a power of ten) that enclose low to high; about `wanted` of them. Equal
/// or non-finite bounds give an axis of one step around the value, or around 0.
std::vector<double> axis_ticks(double low, double high, int wanted);

/// Height that a chart of this series takes at the width, in points.
double chart_height(const PdfDocument& pdf, const Series& series, double width);

/// Draws title, axes, curves and legend into the area. Points that are not finite break the curve.
void draw_chart(PdfDocument& pdf, std::size_t page, const Series& series, const Rect& area);

/// Height that the chart takes at the width, in points. Grows with the number of bars; less makes the bars
/// thinner.
double bar_chart_height(const PdfDocument& pdf, const BarChart& chart, double width);

/// Draws title, axis, bars and legend into the area. Pieces of a part that the legend does not name are left out.
void draw_bar_chart(PdfDocument& pdf, std::size_t page, const BarChart& chart, const Rect& area);

}  // namespace panel_dossier
