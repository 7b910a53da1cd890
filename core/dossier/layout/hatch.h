// Hatches as line segments clipped to an outline, so that they print alike everywhere and need no colour.
#pragma once

#include <vector>

#include "core/api/finding/drawing.h"
#include "core/dossier/layout/pdf_document.h"

namespace panel_dossier {

/// The parts of parallel lines that lie inside the outline (even-odd rule). `angle_rad` is the direction of the lines,
/// `spacing` their distance, in the unit of the outline. Empty for fewer than three corners or no spacing.
std::vector<Segment> hatch_lines(const Polygon& outline, double angle_rad, double spacing);

/// Marks of one hatch over an outline on the page, in points. Fine enough outlines get a solid fill instead: then
/// `solid` is set and `segments` is empty.
struct HatchMarks {
  std::vector<Segment> segments;
  bool solid = false;
  bool dashed = false;
};
HatchMarks hatch_marks(const Polygon& outline, Hatch hatch);

/// The word for the hatch in a legend.
const char* hatch_name(Hatch hatch);

}  // namespace panel_dossier
