#include "core/api/support/geometry.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace panel_dossier;

namespace {

// Doubles carry about 16 digits; coordinates of metres combined a few times keep 12 of them.
constexpr double kRounding = 1e-12;

Approx near(double value) {
  return Approx(value).margin(kRounding).epsilon(kRounding);
}

void check_point(const Vec3& found, const Vec3& expected) {
  CHECK(found.x == near(expected.x));
  CHECK(found.y == near(expected.y));
  CHECK(found.z == near(expected.z));
}

Polygon rectangle(double width_m, double height_m) {
  return {{0.0, 0.0}, {width_m, 0.0}, {width_m, height_m}, {0.0, height_m}};
}

/// Turned by 90 degrees about z and moved.
Frame turned_frame() {
  return {{10.0, 20.0, 3.0}, {0.0, 1.0, 0.0}, {-1.0, 0.0, 0.0}, {0.0, 0.0, 1.0}};
}

}  // namespace

TEST_CASE("the cross product of x and y is z") {
  check_point(cross({1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}), {0.0, 0.0, 1.0});
}

TEST_CASE("a cross product is square to both factors") {
  const Vec3 a{1.0, 2.0, 3.0};
  const Vec3 b{-4.0, 0.5, 2.0};
  CHECK(dot(cross(a, b), a) == near(0.0));
  CHECK(dot(cross(a, b), b) == near(0.0));
}

TEST_CASE("the length of 3, 4, 12 is 13") {
  CHECK(length({3.0, 4.0, 12.0}) == 13.0);
}

TEST_CASE("a turned frame takes a local point to its parent") {
  check_point(turned_frame().to_parent(Vec3{1.0, 2.0, 0.5}), {8.0, 21.0, 3.5});
}

TEST_CASE("a direction is turned but not moved") {
  check_point(turned_frame().direction_to_parent({1.0, 0.0, 0.0}), {0.0, 1.0, 0.0});
}

TEST_CASE("to_local undoes to_parent for a point") {
  const Vec3 point{0.3, -1.7, 2.9};
  check_point(turned_frame().to_local(turned_frame().to_parent(point)), point);
}

TEST_CASE("to_local undoes to_parent for a frame") {
  const double c = std::cos(0.4);
  const double s = std::sin(0.4);
  const Frame inner{{1.0, 2.0, 3.0}, {c, 0.0, -s}, {0.0, 1.0, 0.0}, {s, 0.0, c}};
  const Frame back = turned_frame().to_local(turned_frame().to_parent(inner));
  check_point(back.origin, inner.origin);
  check_point(back.x_axis, inner.x_axis);
  check_point(back.y_axis, inner.y_axis);
  check_point(back.z_axis, inner.z_axis);
}

TEST_CASE("the default frame changes nothing") {
  check_point(Frame{}.to_parent(Vec3{1.0, 2.0, 3.0}), {1.0, 2.0, 3.0});
}

TEST_CASE("a box knows its size and centre") {
  const Box3 box{{1.0, 2.0, 3.0}, {2.0, 4.0, 7.0}};
  check_point(box.size(), {1.0, 2.0, 4.0});
  check_point(box.centre(), {1.5, 3.0, 5.0});
}

TEST_CASE("the union of two boxes holds both") {
  const Box3 both = united({{0.0, 0.0, 0.0}, {1.0, 1.0, 1.0}}, {{-1.0, 0.5, 2.0}, {0.5, 3.0, 4.0}});
  check_point(both.min, {-1.0, 0.0, 0.0});
  check_point(both.max, {1.0, 3.0, 4.0});
}

TEST_CASE("overlapping boxes share a box") {
  const auto common = intersection({{0.0, 0.0, 0.0}, {2.0, 2.0, 2.0}}, {{1.0, 1.0, 1.0}, {3.0, 3.0, 3.0}});
  REQUIRE(common);
  check_point(common->min, {1.0, 1.0, 1.0});
  check_point(common->max, {2.0, 2.0, 2.0});
}

TEST_CASE("boxes that only touch share nothing") {
  CHECK_FALSE(intersection({{0.0, 0.0, 0.0}, {1.0, 1.0, 1.0}}, {{1.0, 0.0, 0.0}, {2.0, 1.0, 1.0}}));
}

TEST_CASE("area does not depend on the direction of the outline") {
  Polygon outline = rectangle(2.0, 3.0);
  CHECK(area(outline) == near(6.0));
  std::reverse(outline.begin(), outline.end());
  CHECK(area(outline) == near(6.0));
}

TEST_CASE("fewer than three points enclose no area") {
  CHECK(area({}) == 0.0);
  CHECK(area({{1.0, 1.0}}) == 0.0);
  CHECK(area({{1.0, 1.0}, {2.0, 5.0}}) == 0.0);
}

TEST_CASE("the centroid of points on one line is their mean") {
  // These coordinates are not exact in binary, so the shoelace sum is a rounding error and not zero.
  const Vec2 c = centroid({{0.1, 0.1}, {0.2, 0.2}, {0.7, 0.7}});
  CHECK(c.x == near(1.0 / 3.0));
  CHECK(c.y == near(1.0 / 3.0));
}

TEST_CASE("the centroid of no points is the origin") {
  CHECK(centroid({}).x == 0.0);
  CHECK(centroid({}).y == 0.0);
}

TEST_CASE("area and centroid keep their digits far from the origin") {
  constexpr double kEasting = 524288.0;  // a power of two, so that the corners themselves are exact
  Polygon outline = rectangle(0.5, 0.25);
  for (Vec2& p : outline) p = {p.x + kEasting, p.y + kEasting};
  CHECK(area(outline) == near(0.125));
  CHECK(centroid(outline).x == near(kEasting + 0.25));
  CHECK(centroid(outline).y == near(kEasting + 0.125));
}

TEST_CASE("a thin foil has an area and its own centroid") {
  const Polygon foil = rectangle(12.0, 0.0002);
  CHECK(area(foil) == near(0.0024));
  CHECK(centroid(foil).x == near(6.0));
}

TEST_CASE("the volume of a straight extrusion is area times depth") {
  const Extrusion stud{rectangle(0.045, 0.145), {}, {0.0, 0.0, 1.0}, 2.4};
  CHECK(stud.volume_m3() == near(0.045 * 0.145 * 2.4));
}

TEST_CASE("an oblique extrusion has the volume of its upright height") {
  const double slope = std::sqrt(0.5);
  const Extrusion prism{rectangle(1.0, 1.0), {}, {slope, 0.0, slope}, 2.0};
  CHECK(prism.volume_m3() == near(2.0 * slope));
  check_point(prism.centroid(), {0.5 + slope, 0.5, slope});
}

TEST_CASE("centroid and bounds of an extrusion are in the parent frame") {
  const Extrusion block{rectangle(2.0, 4.0), turned_frame(), {0.0, 0.0, 1.0}, 1.0};
  check_point(block.centroid(), {8.0, 21.0, 3.5});
  check_point(block.bounds().min, {6.0, 20.0, 3.0});
  check_point(block.bounds().max, {10.0, 22.0, 4.0});
}

TEST_CASE("an extrusion without outline is a point at its origin") {
  const Extrusion nothing{{}, turned_frame(), {0.0, 0.0, 1.0}, 1.0};
  CHECK(nothing.volume_m3() == 0.0);
  check_point(nothing.bounds().min, {10.0, 20.0, 3.0});
  check_point(nothing.bounds().max, {10.0, 20.0, 3.0});
}

TEST_CASE("a rectangle goes anticlockwise round its area from the lower left corner") {
  const Polygon outline = rectangle(1.0, 2.0, 4.0, 8.0);
  REQUIRE(outline.size() == 4);
  CHECK(outline.front().x == 1.0);
  CHECK(outline.front().y == 2.0);
  CHECK(outline[1].x == 4.0);
  CHECK(outline[1].y == 2.0);
  CHECK(area(outline) == 18.0);
  CHECK(centroid(outline).x == Approx(2.5));
  CHECK(centroid(outline).y == Approx(5.0));
}
