// Drawings of the neutral vocabulary on the page, to a stated scale. Hatches are line segments clipped to an outline,
// so that they print alike everywhere and need no colour.
#pragma once

#include <optional>
#include <string>
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

struct Extent {
  Vec2 min;
  Vec2 max;

  double width() const { return max.x - min.x; }
  double height() const { return max.y - min.y; }
};

/// What the drawing's lines, polygons, dimensions and text points cover, in metres; none for an empty drawing.
std::optional<Extent> extent(const Drawing& drawing);

/// The largest customary scale (1:1, 1:2, 1:5, 1:10, 1:20, 1:25, 1:30, 1:40, 1:50, 1:75, … ) at which `width_m` ×
/// `height_m` fits into `area`, as the number behind the colon.
double choose_scale(double width_m, double height_m, const Rect& area);

/// Points on paper of one metre at the scale.
double points_per_metre(double scale);

/// `1:50`.
std::string scale_text(double scale);

/// Where and how a drawing stands on the page.
struct DrawingFrame {
  Vec2 origin;  ///< page point of the drawing's (0, 0)
  double scale = 1.0;

  Vec2 on_page(Vec2 point_m) const;
};

/// A frame that centres `covered` in `area` at `scale`.
DrawingFrame centred_frame(const Extent& covered, const Rect& area, double scale);

/// Paints the drawing. Text has a size of its own, whatever the scale.
void paint_drawing(PdfDocument& pdf, std::size_t page, const Drawing& drawing, const DrawingFrame& frame);

/// Chooses the scale, paints the drawing centred in `area` with a margin for its text, and returns the scale.
double fit_drawing(PdfDocument& pdf, std::size_t page, const Drawing& drawing, const Rect& area);

}  // namespace panel_dossier
