#include "core/intake/panels/shapes/profile_reader.h"

#include <boost/geometry/algorithms/append.hpp>
#include <boost/geometry/algorithms/correct.hpp>
#include <boost/geometry/algorithms/is_valid.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <boost/geometry/strategies/strategies.hpp>
#include <numbers>
#include <string>
#include <utility>

#include "core/intake/graph/vocabulary.h"

namespace panel_dossier {

namespace {

namespace bg = boost::geometry;

using PlanePoint = bg::model::d2::point_xy<double>;
using PlaneArea = bg::model::polygon<PlanePoint>;

PlaneArea plane_area(const Polygon& outline, const std::vector<Polygon>& holes) {
  PlaneArea area;
  for (const Vec2& corner : outline) bg::append(area.outer(), PlanePoint(corner.x, corner.y));
  area.inners().resize(holes.size());
  for (std::size_t i = 0; i < holes.size(); ++i) {
    for (const Vec2& corner : holes[i]) bg::append(area.inners()[i], PlanePoint(corner.x, corner.y));
  }
  bg::correct(area);
  return area;
}

/// What makes the outlines bound no area; empty when they do. Corners that repeat or lie on a straight edge are no
/// fault.
std::string fault_of(const ProfileArea& area) {
  bg::validity_failure_type failure = bg::no_failure;
  bg::is_valid(plane_area(area.outline, area.holes), failure);
  switch (failure) {
    case bg::failure_self_intersections: return "the outline of the profile crosses itself or a hole in it";
    case bg::failure_interior_rings_outside: return "a hole of the profile lies outside of its outline";
    case bg::failure_nested_interior_rings: return "a hole of the profile lies in another one";
    case bg::failure_disconnected_interior: return "the holes of the profile cut it in two";
    default: return {};
  }
}

}  // namespace

std::optional<double> ProfileReader::size(const Element& profile, std::string_view attribute) const {
  const auto value = required_number(context_, profile, attribute);
  if (!value) return std::nullopt;
  if (*value <= 0.0) {
    context_.report.error(profile, std::string(attribute) + " is not greater than zero",
                          "give the size of the profile");
    return std::nullopt;
  }
  return *value * units_.length_factor();
}

std::optional<ProfileArea> ProfileReader::rectangle_profile(const Element& profile) const {
  const auto x = size(profile, "XDim");
  const auto y = size(profile, "YDim");
  if (!x || !y) return std::nullopt;
  return ProfileArea{rectangle(-*x / 2.0, -*y / 2.0, *x / 2.0, *y / 2.0), {}};
}

/// Roundings of the corners are left out.
std::optional<ProfileArea> ProfileReader::hollow_rectangle(const Element& profile) const {
  auto area = rectangle_profile(profile);
  const auto wall = size(profile, "WallThickness");
  if (!area || !wall) return std::nullopt;
  const double x = area->outline[2].x - *wall;
  const double y = area->outline[2].y - *wall;
  if (x <= 0.0 || y <= 0.0) {
    context_.report.error(profile, "the wall is thicker than half of the section", "check the sizes of the profile");
    return std::nullopt;
  }
  area->holes.push_back(rectangle(-x, -y, x, y));
  return area;
}

/// An I-shaped section, as joists with timber flanges have; fillets are left out.
std::optional<ProfileArea> ProfileReader::i_shape(const Element& profile) const {
  const auto width = size(profile, "OverallWidth");
  const auto depth = size(profile, "OverallDepth");
  const auto web = size(profile, "WebThickness");
  const auto flange = size(profile, "FlangeThickness");
  if (!width || !depth || !web || !flange) return std::nullopt;
  if (*web > *width || 2.0 * *flange > *depth) {
    context_.report.error(profile, "web or flanges are larger than the section", "check the sizes of the profile");
    return std::nullopt;
  }
  const double b = *width / 2.0;
  const double h = *depth / 2.0;
  const double w = *web / 2.0;
  const double f = h - *flange;
  return ProfileArea{
      {{-b, -h}, {b, -h}, {b, -f}, {w, -f}, {w, f}, {b, f}, {b, h}, {-b, h}, {-b, f}, {-w, f}, {-w, -f}, {-b, -f}}, {}};
}

std::optional<ProfileArea> ProfileReader::circle_profile(const Element& profile, bool is_hollow) const {
  const auto radius = size(profile, "Radius");
  const auto wall = is_hollow ? size(profile, "WallThickness") : std::optional<double>(0.0);
  if (!radius || !wall) return std::nullopt;
  const auto circle = [](double radius_m) {
    Polygon corners = arc_corners({}, radius_m, 0.0, 2.0 * std::numbers::pi);
    corners.pop_back();
    return corners;
  };
  ProfileArea area{circle(*radius), {}};
  if (!is_hollow) return area;
  if (*wall >= *radius) {
    context_.report.error(profile, "the wall is thicker than half of the section", "check the sizes of the profile");
    return std::nullopt;
  }
  area.holes.push_back(circle(*radius - *wall));
  return area;
}

std::optional<Polygon> ProfileReader::outline(const Element& curve, const Element& owner) {
  auto corners = curves_.corners(curve);
  if (!corners) return std::nullopt;
  if (corners->size() < 3 || !(panel_dossier::area(*corners) > 0.0)) {
    context_.report.error(owner, "the outline of the profile encloses no area",
                          "give a closed curve of 3 points or more");
    return std::nullopt;
  }
  return corners;
}

std::optional<ProfileArea> ProfileReader::arbitrary_profile(const Element& profile, bool has_voids) {
  auto outer = outline(context_.graph.entity(profile, "OuterCurve"), profile);
  if (!outer) return std::nullopt;
  ProfileArea area{std::move(*outer), {}};
  if (has_voids) {
    for (const Element& curve : context_.graph.entities(profile, "InnerCurves")) {
      auto hole = outline(curve, profile);
      if (!hole) return std::nullopt;
      area.holes.push_back(std::move(*hole));
    }
  }
  if (const std::string fault = fault_of(area); !fault.empty()) {
    context_.report.error(profile, fault, "draw the outline so that it meets itself and its holes nowhere");
    return std::nullopt;
  }
  return area;
}

std::optional<ProfileArea> ProfileReader::placed(const Element& profile, std::optional<ProfileArea> area) const {
  const auto position = placements_.axis_placement_2d(context_.graph.entity(profile, "Position"));
  if (!area || !position) return std::nullopt;
  const auto place = [&](Polygon& outline) {
    for (Vec2& point : outline) {
      const Vec3 moved = position->to_parent(Vec3{point.x, point.y, 0.0});
      point = {moved.x, moved.y};
    }
  };
  place(area->outline);
  for (Polygon& hole : area->holes) place(hole);
  return area;
}

std::optional<ProfileArea> ProfileReader::area(const Element& profile) {
  const std::string_view type = ifc_type(profile);
  if (type == "IfcArbitraryClosedProfileDef") return arbitrary_profile(profile, false);
  if (type == "IfcArbitraryProfileDefWithVoids") return arbitrary_profile(profile, true);
  if (type == "IfcRectangleProfileDef") return placed(profile, rectangle_profile(profile));
  if (type == "IfcRectangleHollowProfileDef") return placed(profile, hollow_rectangle(profile));
  if (type == "IfcIShapeProfileDef") return placed(profile, i_shape(profile));
  if (type == "IfcCircleProfileDef") return placed(profile, circle_profile(profile, false));
  if (type == "IfcCircleHollowProfileDef") return placed(profile, circle_profile(profile, true));
  count_unread(unread_, type);
  return std::nullopt;
}

}  // namespace panel_dossier
