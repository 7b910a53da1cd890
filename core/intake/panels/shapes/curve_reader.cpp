#include "core/intake/panels/shapes/curve_reader.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

#include "core/intake/graph/vocabulary.h"
#include "core/intake/panels/shapes/polyhedron.h"

namespace panel_dossier {

namespace {

// A whole circle never needs more chords: a radius of 20 m has 2200 of them at the chord error.
constexpr double kMostChords = 2500.0;
// Segments of one curve whose ends are this far apart were meant to meet, m: exports round to 0.1 mm at worst.
constexpr double kSegmentsMeet_m = 1e-4;

constexpr double kFullTurn = 2.0 * std::numbers::pi;

bool is_same(const Vec2& a, const Vec2& b, double within_m = kSamePoint_m) {
  return std::abs(a.x - b.x) < within_m && std::abs(a.y - b.y) < within_m;
}

void add_corner(const Vec2& corner, Polygon& corners) {
  if (corners.empty() || !is_same(corners.back(), corner)) corners.push_back(corner);
}

double in_one_turn(double angle_rad) {
  const double rest = std::fmod(angle_rad, kFullTurn);
  return rest < 0.0 ? rest + kFullTurn : rest;
}

/// The centre of the circle through three points; none when they lie on a line.
std::optional<Vec2> centre_of(const Vec2& a, const Vec2& b, const Vec2& c) {
  const Vec2 ab{b.x - a.x, b.y - a.y};
  const Vec2 ac{c.x - a.x, c.y - a.y};
  const double twice_area = ab.x * ac.y - ab.y * ac.x;
  const double longest = std::max(std::hypot(ab.x, ab.y), std::hypot(ac.x, ac.y));
  if (std::abs(twice_area) <= kSamePoint_m * longest) return std::nullopt;
  const double ab2 = ab.x * ab.x + ab.y * ab.y;
  const double ac2 = ac.x * ac.x + ac.y * ac.y;
  const double d = 2.0 * twice_area;
  return Vec2{a.x + (ac.y * ab2 - ab.y * ac2) / d, a.y + (ab.x * ac2 - ac.x * ab2) / d};
}

void add_arc(const Vec2& a, const Vec2& through, const Vec2& c, Polygon& corners) {
  const auto centre = centre_of(a, through, c);
  if (!centre) {
    add_corner(a, corners);
    add_corner(c, corners);
    return;
  }
  const auto angle = [&](const Vec2& p) { return std::atan2(p.y - centre->y, p.x - centre->x); };
  const double from = angle(a);
  const double to = in_one_turn(angle(c) - from);
  const bool is_anticlockwise = in_one_turn(angle(through) - from) < to;
  const double radius = std::hypot(a.x - centre->x, a.y - centre->y);
  add_corner(a, corners);
  for (const Vec2& corner : arc_corners(*centre, radius, from, is_anticlockwise ? to : to - kFullTurn)) {
    add_corner(corner, corners);
  }
  // The end as the export gives it, without the rounding of sine and cosine.
  corners.back() = c;
}

}  // namespace

Polygon arc_corners(const Vec2& centre, double radius_m, double from_rad, double turn_rad) {
  // A chord over the angle 2a lies r (1 - cos a) inside of the arc.
  const double share = std::min(kChordError_m / radius_m, 0.5);
  const double step = 2.0 * std::acos(1.0 - share);
  const int chords = static_cast<int>(std::clamp(std::ceil(std::abs(turn_rad) / step), 1.0, kMostChords));
  Polygon corners;
  for (int i = 0; i <= chords; ++i) {
    const double angle = from_rad + turn_rad * i / chords;
    corners.push_back({centre.x + radius_m * std::cos(angle), centre.y + radius_m * std::sin(angle)});
  }
  return corners;
}

std::optional<Polygon> CurveReader::corners(const Element& curve) {
  auto found = open_corners(curve);
  while (found && found->size() > 1 && is_same(found->front(), found->back())) found->pop_back();
  return found;
}

std::optional<Polygon> CurveReader::open_corners(const Element& curve) {
  const std::string_view type = ifc_type(curve);
  if (type == "IfcPolyline") return polyline(curve);
  if (type == "IfcIndexedPolyCurve") return indexed_curve(curve);
  if (type == "IfcCompositeCurve" || type == "Ifc2DCompositeCurve") return composite_curve(curve);
  if (type == "IfcTrimmedCurve") return trimmed_curve(curve);
  if (type == "IfcCircle") return circle(curve);
  // A curve that is missing is a fault of the profile, not a form that is not read.
  return curve ? not_read(curve) : Polygon{};
}

std::optional<Polygon> CurveReader::not_read(const Element& curve, const char* reason) {
  count_unread(unread_, ifc_type(curve), reason);
  return std::nullopt;
}

std::optional<Polygon> CurveReader::polyline(const Element& curve) {
  Polygon points;
  const std::vector<Element> entities = context_.graph.entities(curve, "Points");
  if (!context_.budget.take(entities.size())) return points;
  for (const Element& entity : entities) {
    const auto point = placements_.point(entity);
    if (!point) return std::nullopt;
    points.push_back({point->x, point->y});
  }
  return points;
}

std::optional<Polygon> CurveReader::indexed_curve(const Element& curve) {
  const Element list = context_.graph.entity(curve, "Points");
  const auto coordinates = list ? numbers(context_, list, "CoordList") : std::nullopt;
  if (!coordinates || coordinates->size() % 2 != 0 || !context_.budget.take(coordinates->size())) return Polygon{};
  if (ifc_type(list) == "IfcCartesianPointList3D") return not_read(curve, "of points in space");
  Polygon points;
  for (std::size_t i = 0; i + 1 < coordinates->size(); i += 2) {
    points.push_back({(*coordinates)[i] * units_.length_factor(), (*coordinates)[i + 1] * units_.length_factor()});
  }
  const auto segments = number_lists(context_, curve, "Segments");
  if (!segments) return std::nullopt;
  if (segments->empty()) return points;
  Polygon corners;
  for (const NumberList& segment : *segments) {
    if (!context_.budget.take(segment.values.size())) return Polygon{};
    if (!add_segment(curve, segment, points, corners)) return std::nullopt;
  }
  return corners;
}

/// The points in the order in which the segment visits them.
bool CurveReader::add_segment(const Element& curve, const NumberList& segment, const Polygon& points,
                              Polygon& corners) {
  std::vector<Vec2> visited;
  for (const double index : segment.values) {
    if (index < 1.0 || index > static_cast<double>(points.size())) {
      context_.report.error(curve, "Segments name a point that is not in the list", "count the points from 1");
      return false;
    }
    visited.push_back(points[static_cast<std::size_t>(index) - 1]);
  }
  if (segment.type != "IfcArcIndex") {
    for (const Vec2& point : visited) add_corner(point, corners);
    return true;
  }
  if (visited.size() != 3) {
    context_.report.error(curve, "an arc of Segments has not three points",
                          "give its start, a point on it and its end");
    return false;
  }
  const std::size_t before = corners.size();
  add_arc(visited[0], visited[1], visited[2], corners);
  return context_.budget.take(corners.size() - before);
}

std::optional<Polygon> CurveReader::composite_curve(const Element& curve) {
  Polygon corners;
  for (const Element& segment : context_.graph.entities(curve, "Segments")) {
    const Element parent = context_.graph.entity(segment, "ParentCurve");
    const std::string_view type = ifc_type(parent);
    // Curves of curves nest without end; a part of one level is all that profiles need.
    if (type != "IfcPolyline" && type != "IfcTrimmedCurve" && type != "IfcIndexedPolyCurve") {
      return not_read(parent ? parent : segment);
    }
    auto piece = open_corners(parent);
    if (!piece || !context_.budget.take(piece->size())) return std::nullopt;
    if (parse_logical(context_.graph.text(segment, "SameSense")) == false) std::reverse(piece->begin(), piece->end());
    if (!corners.empty() && !piece->empty() && !is_same(corners.back(), piece->front(), kSegmentsMeet_m)) {
      return not_read(curve, "segments do not meet");
    }
    for (const Vec2& corner : *piece) {
      if (corners.empty() || !is_same(corners.back(), corner, kSegmentsMeet_m)) corners.push_back(corner);
    }
  }
  return corners;
}

std::optional<Polygon> CurveReader::trimmed_curve(const Element& curve) {
  const Element basis = context_.graph.entity(curve, "BasisCurve");
  const bool is_forward = parse_logical(context_.graph.text(curve, "SenseAgreement")).value_or(true);
  if (ifc_type(basis) == "IfcCircle") return trimmed_circle(basis, curve, is_forward);
  if (ifc_type(basis) == "IfcLine") return trimmed_line(basis, curve);
  return not_read(basis ? basis : curve);
}

std::optional<Vec3> CurveReader::trim_point(const Element& curve, const char* attribute) const {
  for (const Element& trim : context_.graph.entities(curve, attribute)) {
    if (ifc_type(trim) == "IfcCartesianPoint") return placements_.point(trim);
  }
  return std::nullopt;
}

std::optional<double> CurveReader::trim_parameter(const Element& curve, const char* attribute) const {
  const auto lists = number_lists(context_, curve, attribute);
  if (!lists) return std::nullopt;
  for (const NumberList& list : *lists) {
    if (list.values.size() == 1 && (list.type == "IfcParameterValue" || list.type.empty())) return list.values.front();
  }
  return std::nullopt;
}

std::optional<double> CurveReader::radius_of(const Element& circle) const {
  const auto radius = required_number(context_, circle, "Radius");
  if (!radius) return std::nullopt;
  if (*radius <= 0.0) {
    context_.report.error(circle, "Radius is not greater than zero", "give the radius of the arc");
    return std::nullopt;
  }
  return *radius * units_.length_factor();
}

std::optional<Polygon> CurveReader::trimmed_circle(const Element& circle, const Element& curve, bool is_forward) {
  static const Measure& angle_measure = *find_measure("IfcPlaneAngleMeasure");
  const auto position = placements_.axis_placement(context_.graph.entity(circle, "Position"));
  const auto radius = radius_of(circle);
  if (!position || !radius) return std::nullopt;
  const auto angle_of = [&](const char* attribute) -> std::optional<double> {
    if (const auto point = trim_point(curve, attribute)) {
      const Vec3 local = position->to_local(*point);
      return std::atan2(local.y, local.x);
    }
    const auto parameter = trim_parameter(curve, attribute);
    return parameter ? units_.to_si(*parameter, angle_measure, {}) : std::nullopt;
  };
  const auto from = angle_of("Trim1");
  const auto to = angle_of("Trim2");
  if (!from || !to) return not_read(curve, "trimmed by neither points nor angles");
  double turn = in_one_turn(is_forward ? *to - *from : *from - *to);
  if (turn == 0.0) turn = kFullTurn;
  Polygon corners = arc_corners({0.0, 0.0}, *radius, *from, is_forward ? turn : -turn);
  for (Vec2& corner : corners) {
    const Vec3 at = position->to_parent(Vec3{corner.x, corner.y, 0.0});
    corner = {at.x, at.y};
  }
  return corners;
}

std::optional<Polygon> CurveReader::trimmed_line(const Element& line, const Element& curve) {
  const Element start_entity = context_.graph.entity(line, "Pnt");
  const Element vector = context_.graph.entity(line, "Dir");
  const Element orientation = vector ? context_.graph.entity(vector, "Orientation") : Element();
  const auto end = [&](const char* attribute) -> std::optional<Vec2> {
    if (const auto point = trim_point(curve, attribute)) return Vec2{point->x, point->y};
    const auto parameter = trim_parameter(curve, attribute);
    if (!parameter || !start_entity || !orientation) return std::nullopt;
    const auto start = placements_.point(start_entity);
    const auto along = placements_.direction(orientation);
    const auto magnitude = required_number(context_, vector, "Magnitude");
    if (!start || !along || !magnitude) return std::nullopt;
    const double way_m = *parameter * *magnitude * units_.length_factor();
    return Vec2{start->x + along->x * way_m, start->y + along->y * way_m};
  };
  const auto from = end("Trim1");
  const auto to = end("Trim2");
  if (!from || !to) return not_read(curve, "trimmed by neither points nor lengths");
  return Polygon{*from, *to};
}

std::optional<Polygon> CurveReader::circle(const Element& curve) {
  const auto position = placements_.axis_placement(context_.graph.entity(curve, "Position"));
  const auto radius = radius_of(curve);
  if (!position || !radius) return std::nullopt;
  return arc_corners({position->origin.x, position->origin.y}, *radius, 0.0, kFullTurn);
}

}  // namespace panel_dossier
