#include "core/intake/panels/shapes/joined_prism.h"

#include <boost/geometry/algorithms/append.hpp>
#include <boost/geometry/algorithms/area.hpp>
#include <boost/geometry/algorithms/correct.hpp>
#include <boost/geometry/algorithms/union.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <boost/geometry/strategies/strategies.hpp>
#include <cmath>
#include <utility>

#include "core/intake/panels/placement.h"

namespace panel_dossier {

namespace {

namespace bgj = boost::geometry;

using JoinPoint = bgj::model::d2::point_xy<double>;
using JoinArea = bgj::model::polygon<JoinPoint, false>;  // anticlockwise
using JoinAreas = bgj::model::multi_polygon<JoinArea>;

// Seams of less are rounding of the corners on either side, m²: a hundredth of a square millimetre.
constexpr double kSeam_m2 = 1e-8;

/// Levels of a prism along the axis.
bool has_levels(const PrismForm& form, const Vec3& axis, double from, double to) {
  const double foot = dot(form.outer.frame.origin, axis);
  return std::abs(foot - from) <= kPrismTolerance_m && std::abs(foot + form.outer.depth_m - to) <= kPrismTolerance_m;
}

void append_outline(const Polygon& outline, const Frame& of, const Frame& in, JoinArea::ring_type& ring) {
  for (const Vec2& corner : outline) {
    const Vec3 at = in.to_local(of.to_parent(Vec3{corner.x, corner.y, 0.0}));
    // Pieces meet in corners that each worked out for itself.
    ring.emplace_back(to_nanometre(at.x), to_nanometre(at.y));
  }
}

JoinArea area_in(const PrismForm& form, const Frame& frame) {
  JoinArea area;
  append_outline(form.outer.outline, form.outer.frame, frame, area.outer());
  for (const Polygon& hole : form.holes) {
    area.inners().emplace_back();
    append_outline(hole, form.outer.frame, frame, area.inners().back());
  }
  bgj::correct(area);
  return area;
}

Polygon outline_of(const JoinArea::ring_type& ring) {
  Polygon outline;
  for (const JoinPoint& point : ring) outline.push_back({point.x(), point.y()});
  return without_idle_corners(outline);
}

/// The only area that is more than a seam; none when there are several.
std::optional<JoinArea> only_area(const JoinAreas& areas) {
  std::optional<JoinArea> only;
  for (const JoinArea& area : areas) {
    if (bgj::area(area) <= kSeam_m2) continue;
    if (only) return std::nullopt;
    only = area;
  }
  return only;
}

std::optional<PrismForm> joined_along(const std::vector<Polyhedron>& pieces, const Vec3& axis) {
  const auto first = prism_along(pieces.front(), axis);
  if (!first) return std::nullopt;
  const double from = dot(first->outer.frame.origin, axis);
  JoinAreas joined;
  double sum_m2 = 0.0;
  for (const Polyhedron& piece : pieces) {
    const auto form = prism_along(piece, axis);
    if (!form || !has_levels(*form, axis, from, from + first->outer.depth_m)) return std::nullopt;
    const JoinArea area = area_in(*form, first->outer.frame);
    sum_m2 += bgj::area(area);
    JoinAreas more;
    bgj::union_(joined, area, more);
    joined = std::move(more);
  }
  const auto whole = only_area(joined);
  if (!whole) return std::nullopt;
  PrismForm form{first->outer, {}};
  form.outer.outline = outline_of(whole->outer());
  double joined_m2 = area(form.outer.outline);
  for (const auto& ring : whole->inners()) {
    Polygon hole = outline_of(ring);
    if (hole.size() < 3 || area(hole) <= kSeam_m2) continue;
    joined_m2 -= area(hole);
    form.holes.push_back(std::move(hole));
  }
  // Whatever the joining made of the edges, it may neither add nor lose anything.
  if (form.outer.outline.size() < 3 || std::abs(joined_m2 - sum_m2) > kSeam_m2) return std::nullopt;
  return form;
}

}  // namespace

std::optional<PrismForm> joined_prism(const std::vector<Polyhedron>& pieces) {
  if (pieces.empty()) return std::nullopt;
  for (const Vec3& axis : possible_axes(pieces.front())) {
    if (auto form = joined_along(pieces, axis)) return form;
  }
  return std::nullopt;
}

}  // namespace panel_dossier
