// A neutral vocabulary for drawings and charts: plugins say what to draw, the dossier decides how it looks.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/support/geometry.h"

namespace panel_dossier {

enum class LineStyle { thin, normal, heavy, dashed, centre };

/// Fills that stay distinct without colour.
enum class Hatch { none, timber, insulation, board, membrane, masonry, glass, metal, air };

/// Colours that a drawing can tell apart; they only help, for a page may be printed in grey.
inline constexpr std::size_t kTints = 8;

struct DrawnLine {
  Vec2 from;
  Vec2 to;
  LineStyle style = LineStyle::normal;
};

struct DrawnPolygon {
  Polygon outline;
  Hatch hatch = Hatch::none;
  LineStyle style = LineStyle::normal;
  std::string label;     ///< set at the centroid when it fits; may be empty
  std::size_t tint = 0;  ///< 0: none; from 1 on a pale colour under the hatch, which repeats after kTints
};

/// A dimension line parallel to from-to, `offset` metres to its left.
struct DrawnDimension {
  Vec2 from;
  Vec2 to;
  double offset = 0.0;
  std::string text;  ///< empty: the length in millimetres
};

struct DrawnText {
  Vec2 at;
  std::string text;
};

/// A drawing in metres at true proportions, x to the right and y up; no coordinate may be NaN or infinite. The dossier
/// chooses scale, line widths and text size.
struct Drawing {
  std::string title;
  std::vector<DrawnPolygon> polygons;  ///< painted first, in order
  std::vector<DrawnLine> lines;
  std::vector<DrawnDimension> dimensions;
  std::vector<DrawnText> texts;
};

/// One curve of a chart.
struct Curve {
  std::string name;
  std::vector<Vec2> points;
};

/// A line chart with labelled axes.
struct Series {
  std::string title;
  std::string x_label;
  std::string x_unit;
  std::string y_label;
  std::string y_unit;
  std::vector<Curve> curves;
};

/// A stretch of a bar along the chart's axis. `to` may lie below `from`: a negative share.
struct BarPiece {
  std::size_t part = 0;  ///< index into BarChart::parts
  double from = 0.0;
  double to = 0.0;
};

struct Bar {
  std::string name;
  std::vector<BarPiece> pieces;
};

/// Horizontal bars over one axis: shares of a total, a timeline, a programme. Pieces of one part share a fill.
struct BarChart {
  std::string title;
  std::string axis_label;
  std::string axis_unit;
  std::vector<std::string> parts;  ///< the legend: what each fill stands for
  std::vector<Bar> bars;           ///< from the top down
};

/// One bar of shares laid end to end, one value a part: those above 0 to the right of 0, those below to its left.
Bar stacked_bar(std::string name, const std::vector<double>& values);

}  // namespace panel_dossier
