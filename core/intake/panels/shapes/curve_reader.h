// Curves of the export that bound a profile -> closed outlines in metres.
#pragma once

#include <optional>

#include "core/api/support/geometry.h"
#include "core/intake/graph/unit_table.h"
#include "core/intake/panels/placement.h"
#include "core/intake/panels/shapes/unread_shapes.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// Arcs become chords that lie no farther from them than this, m: a fiftieth of a millimetre, so that a round bar of
/// 50 mm loses 0.2 % of its area.
inline constexpr double kChordError_m = 2e-5;

/// The corners of an arc, both ends among them: `turn_rad` from the angle `from_rad`, anticlockwise when positive.
/// Precondition: the radius is positive.
Polygon arc_corners(const Vec2& centre, double radius_m, double from_rad, double turn_rad);

/// Belongs to one run on one thread.
class CurveReader {
 public:
  CurveReader(const ReadContext& context, const PlacementReader& placements, UnitTable& units, UnreadShapes& unread)
      : context_(context), placements_(placements), units_(units), unread_(unread) {}

  /// The corners of the curve, without the first one repeated. A form that is not read is counted and gives none, a
  /// faulty one is reported and gives none. The curve need not close: who asks looks at that.
  std::optional<Polygon> corners(const Element& curve);

 private:
  const ReadContext& context_;
  const PlacementReader& placements_;
  UnitTable& units_;
  UnreadShapes& unread_;

  std::optional<Polygon> open_corners(const Element& curve);
  std::optional<Polygon> polyline(const Element& curve);
  std::optional<Polygon> indexed_curve(const Element& curve);
  bool add_segment(const Element& curve, const NumberList& segment, const Polygon& points, Polygon& corners);
  std::optional<Polygon> composite_curve(const Element& curve);
  std::optional<Polygon> trimmed_curve(const Element& curve);
  std::optional<Polygon> trimmed_circle(const Element& circle, const Element& curve, bool is_forward);
  std::optional<Polygon> trimmed_line(const Element& line, const Element& curve);
  std::optional<Polygon> circle(const Element& curve);
  std::optional<Polygon> not_read(const Element& curve, const char* reason = "");
  std::optional<Vec3> trim_point(const Element& curve, const char* attribute) const;
  std::optional<double> trim_parameter(const Element& curve, const char* attribute) const;
  std::optional<double> radius_of(const Element& circle) const;
};

}  // namespace panel_dossier
