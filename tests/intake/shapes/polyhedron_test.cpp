// Bodies with plane faces: volumes worked out by hand, and what cuts must keep.
#include "core/intake/panels/shapes/polyhedron.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "core/intake/panels/shapes/convex_pieces.h"
#include "core/intake/panels/shapes/joined_prism.h"
#include "core/intake/panels/shapes/mesh_reader.h"
#include "core/intake/panels/shapes/motion.h"
#include "core/intake/panels/shapes/prism_form.h"

namespace panel_dossier {
namespace {

Vec3 unit(const Vec3& v) {
  return v * (1.0 / length(v));
}

/// 1.5 x 1 m with a corner of 0.5 x 0.5 m left out: 1.25 m².
Polygon l_shape() {
  return {{0.0, 0.0}, {1.5, 0.0}, {1.5, 0.5}, {1.0, 0.5}, {1.0, 1.0}, {0.0, 1.0}};
}

/// 2 m high, with a hole of 0.2 x 0.4 m: (1.25 - 0.08) * 2 = 2.34 m³.
Polyhedron holed_l() {
  return polyhedron_of({l_shape(), {}, {0.0, 0.0, 1.0}, 2.0}, {rectangle(0.3, 0.3, 0.5, 0.7)});
}

double volume_of(const std::vector<Polyhedron>& bodies) {
  double sum = 0.0;
  for (const Polyhedron& body : bodies) sum += body.volume_m3();
  return sum;
}

double area_of(const std::vector<Polygon>& outlines) {
  double sum = 0.0;
  for (const Polygon& outline : outlines) sum += signed_area_m2(outline);
  return sum;
}

}  // namespace

TEST_CASE("a prism has the volume of its outline, less its holes, times its height", "[shapes]") {
  CHECK(holed_l().volume_m3() == Approx(2.34).epsilon(1e-12));
  CHECK(fault_of_body(holed_l()).empty());
  // Drawn clockwise, and extruded downwards.
  Polygon clockwise = l_shape();
  std::reverse(clockwise.begin(), clockwise.end());
  for (const Polygon& outline : {l_shape(), clockwise}) {
    for (const double way : {1.0, -1.0}) {
      const Polyhedron body = polyhedron_of({outline, {}, {0.0, 0.0, way}, 2.0}, {rectangle(0.3, 0.3, 0.5, 0.7)});
      CHECK(body.volume_m3() == Approx(2.34).epsilon(1e-12));
      CHECK(fault_of_body(body).empty());
    }
  }
  // An oblique prism stands 2 * 0.8 m high.
  CHECK(polyhedron_of({l_shape(), {}, {0.6, 0.0, 0.8}, 2.0}).volume_m3() == Approx(1.25 * 1.6).epsilon(1e-12));
}

TEST_CASE("a face without an outline bounds nothing", "[shapes]") {
  Polyhedron body = holed_l();
  const BodyFace no_loop;
  const BodyFace empty_loop{{{}}};
  for (const BodyFace& face : {no_loop, empty_loop}) {
    body.faces.push_back(face);
    CHECK(length(area_vector(body, face)) == 0.0);
  }
  CHECK(body.volume_m3() == Approx(2.34).epsilon(1e-12));
}

TEST_CASE("the volume does not depend on how far from the origin a body stands", "[shapes]") {
  Polyhedron body = holed_l();
  for (Vec3& vertex : body.vertices) vertex = vertex + Vec3{500000.0, 5000000.0, 300.0};
  CHECK(body.volume_m3() == Approx(2.34).epsilon(1e-7));
}

TEST_CASE("both halves of a cut make up the body, wherever it is cut", "[shapes]") {
  const Polyhedron body = holed_l();
  std::mt19937 random(7);
  std::uniform_real_distribution<double> part(-1.0, 1.0);
  for (int i = 0; i < 400; ++i) {
    const HalfSpace half{{0.75 + 0.6 * part(random), 0.5 + 0.4 * part(random), 1.0 + 0.9 * part(random)},
                         unit({part(random), part(random), part(random)})};
    INFO(i);
    const auto below = cut_to(body, half);
    const auto above = cut_to(body, half.complement());
    REQUIRE(below);
    REQUIRE(above);
    CHECK(below->volume_m3() + above->volume_m3() == Approx(2.34).epsilon(1e-9));
    for (const auto& piece : {*below, *above}) {
      if (!piece.is_empty()) CHECK(fault_of_body(piece).empty());
    }
    // What is cut stays a body that can be cut again.
    const HalfSpace other{half.point, unit({part(random), part(random), part(random)})};
    const auto one = cut_to(*below, other);
    const auto two = cut_to(*below, other.complement());
    REQUIRE(one);
    REQUIRE(two);
    CHECK(one->volume_m3() + two->volume_m3() == Approx(below->volume_m3()).margin(1e-9));
  }
}

TEST_CASE("planes through corners, along edges and in faces cut as others do", "[shapes]") {
  const Polyhedron body = holed_l();
  const auto below = [&](const Vec3& point, const Vec3& normal) {
    const auto rest = cut_to(body, {point, unit(normal)});
    REQUIRE(rest);
    return rest->volume_m3();
  };
  CHECK(below({1.0, 0.0, 0.0}, {1.0, 0.0, 0.0}) == Approx((1.0 - 0.08) * 2.0));   // in the face of the step
  CHECK(below({0.0, 0.5, 0.0}, {0.0, 1.0, 0.0}) == Approx((0.75 - 0.04) * 2.0));  // the other one, through the hole
  CHECK(below({0.3, 0.0, 0.0}, {1.0, 0.0, 0.0}) == Approx(0.3 * 2.0));            // along a side of the hole
  CHECK(below({0.5, 0.0, 0.0}, {1.0, 0.0, 0.0}) == Approx((0.5 - 0.08) * 2.0));
  CHECK(below({0.0, 0.0, 2.0}, {0.0, 0.0, 1.0}) == Approx(2.34));  // in the top
  CHECK(below({0.0, 0.0, 2.0}, {0.0, 0.0, -1.0}) == Approx(0.0).margin(1e-12));
  CHECK(below({0.0, 0.0, 0.0}, {0.0, 0.0, 1.0}) == Approx(0.0).margin(1e-12));  // in the bottom
  CHECK(below({1.5, 0.5, 0.0}, {1.0, 1.0, 0.0}) == Approx(2.34));               // touches an edge only
  // Through the reentrant corner and the far one: the triangle (1, 0.5), (1.5, 0), (1.5, 0.5) falls away.
  CHECK(below({1.0, 0.5, 0.0}, {1.0, 1.0, 0.0}) == Approx((1.25 - 0.125 - 0.125 - 0.08) * 2.0));
}

TEST_CASE("a cut in the plane of a step leaves no skin behind", "[shapes]") {
  // A wall 1 m high with a step that juts out at 0.5 m: what is above of it must not count to the bounds below.
  const Polyhedron body = polyhedron_of(
      {{{0.0, 0.0}, {1.0, 0.0}, {1.0, 0.5}, {2.0, 0.5}, {2.0, 1.0}, {0.0, 1.0}}, {}, {0.0, 0.0, 1.0}, 0.2});
  const auto rest = cut_to(body, {{0.0, 0.5, 0.0}, {0.0, 1.0, 0.0}});
  REQUIRE(rest);
  CHECK(rest->volume_m3() == Approx(0.1));
  CHECK(rest->bounds().max.x == Approx(1.0));
  CHECK(fault_of_body(*rest).empty());
}

TEST_CASE("sections have the area that the body has there", "[shapes]") {
  const Polyhedron body = holed_l();
  Frame at;
  at.origin.z = 1.3;
  const auto level = section(body, at);
  REQUIRE(level);
  CHECK(level->size() == 2);
  CHECK(area_of(*level) == Approx(1.17).epsilon(1e-12));
  at.origin.z = 2.5;
  CHECK(section(body, at)->empty());
  // Upright at y = 0.6, through the hole: 1 m less 0.2 m, 2 m high, in two pieces.
  const Frame upright{{0.0, 0.6, 0.0}, {1.0, 0.0, 0.0}, {0.0, 0.0, 1.0}, {0.0, -1.0, 0.0}};
  const auto standing = section(body, upright);
  REQUIRE(standing);
  CHECK(standing->size() == 2);
  CHECK(area_of(*standing) == Approx(1.6).epsilon(1e-12));
}

TEST_CASE("what is cut away and what both share make up the body", "[shapes]") {
  const Polyhedron body = holed_l();
  const Box3 box{{0.2, -1.0, 0.5}, {1.2, 0.6, 1.5}};
  // By hand, in plan: 0.2..1.2 by 0..0.6 less the corner 1..1.2 by 0.5..0.6 and the hole 0.3..0.5 by 0.3..0.6.
  const double common = (0.6 - 0.02 - 0.06) * 1.0;
  CHECK(common_volume_m3(body, sides_of(box)).value() == Approx(common).epsilon(1e-12));
  const auto rest = cut_away(body, sides_of(box));
  REQUIRE(rest);
  CHECK(volume_of(*rest) == Approx(2.34 - common).epsilon(1e-12));
  const auto untouched = cut_away(body, sides_of(Box3{{5.0, 5.0, 5.0}, {6.0, 6.0, 6.0}}));
  REQUIRE(untouched);
  REQUIRE(untouched->size() == 1);
  CHECK(untouched->front().volume_m3() == Approx(2.34));
  CHECK(cut_away(body, sides_of(Box3{{-1.0, -1.0, -1.0}, {6.0, 6.0, 6.0}}))->empty());
}

TEST_CASE("a prism is recognised, of a box the one along its longest edge", "[shapes]") {
  const Frame turned{{3.0, 2.0, 1.0}, {0.6, 0.8, 0.0}, {-0.8, 0.6, 0.0}, {0.0, 0.0, 1.0}};
  const auto l = prism_form(polyhedron_of({l_shape(), turned, {0.0, 0.0, 1.0}, 2.0}));
  REQUIRE(l);
  CHECK(l->holes.empty());
  CHECK(l->outer.outline.size() == 6);
  CHECK(l->outer.volume_m3() == Approx(2.5).epsilon(1e-12));
  CHECK(l->outer.bounds().max.z == Approx(3.0));
  const auto box = prism_form(polyhedron_of(Box3{{0.0, 0.0, 0.0}, {0.1, 3.0, 0.2}}));
  REQUIRE(box);
  CHECK(box->outer.depth_m == Approx(3.0));
  CHECK(std::abs(box->outer.frame.z_axis.y) == Approx(1.0));
  const auto holed = prism_form(holed_l());
  REQUIRE(holed);
  REQUIRE(holed->holes.size() == 1);
  CHECK(area(holed->holes.front()) == Approx(0.08));
}

TEST_CASE("what is no prism is not taken for one", "[shapes]") {
  // A stump of a pyramid: all corners at two heights, but leaning sides.
  Polyhedron stump = polyhedron_of(Box3{{0.0, 0.0, 0.0}, {1.0, 1.0, 1.0}});
  for (Vec3& vertex : stump.vertices) {
    if (vertex.z > 0.5) vertex = {0.25 + vertex.x / 2.0, 0.25 + vertex.y / 2.0, 1.0};
  }
  CHECK_FALSE(prism_form(stump));
  CHECK(stump.volume_m3() == Approx((1.0 + 0.5 + 0.25) / 3.0));  // (A + √(A a) + a) h / 3
  // A step that is cut across.
  const auto cut = cut_to(holed_l(), {{0.75, 0.5, 1.5}, unit({1.0, 0.3, 1.0})});
  REQUIRE(cut);
  CHECK_FALSE(prism_form(*cut));
}

TEST_CASE("corners on straight edges fall away, others stay", "[shapes]") {
  CHECK(without_idle_corners({{0.0, 0.0}, {1.0, 0.0}, {2.0, 0.0}, {2.0, 0.0}, {2.0, 1.0}, {0.0, 1.0}, {0.0, 0.5}})
            .size() == 4);
  CHECK(without_idle_corners(l_shape()).size() == 6);
}

TEST_CASE("pieces round a hole are a prism with that hole, unless it is no more than the rounding of a seam",
          "[shapes]") {
  const auto pieces_round = [](double side_m) {
    const double from = 0.5;
    const double to = 0.5 + side_m;
    std::vector<Polyhedron> pieces;
    for (const Polygon& outline : {rectangle(0.0, 0.0, 1.0, from), rectangle(0.0, from, from, to),
                                   rectangle(to, from, 1.0, to), rectangle(0.0, to, 1.0, 1.0)}) {
      pieces.push_back(polyhedron_of({outline, {}, {0.0, 0.0, 1.0}, 2.0}));
    }
    return pieces;
  };
  const auto holed = joined_prism(pieces_round(0.001));
  REQUIRE(holed);
  CHECK(area_of({holed->outer.outline}) == Approx(1.0).epsilon(1e-9));
  REQUIRE(holed->holes.size() == 1);
  CHECK(std::abs(area_of(holed->holes)) == Approx(1e-6).epsilon(1e-6));
  const auto whole = joined_prism(pieces_round(0.00009));
  REQUIRE(whole);
  CHECK(whole->holes.empty());
  CHECK_FALSE(joined_prism({pieces_round(0.1)[0], pieces_round(0.1)[3]}));  // a gap lies between them
  CHECK_FALSE(joined_prism({}));
  // Beside each other, of one thickness across the axis but neither of one height nor from one level.
  const auto standing = [](double x, double foot_m, double depth_m) {
    return polyhedron_of({rectangle(x, 0.0, x + 1.0, 1.0 - x / 4.0), {{0.0, 0.0, foot_m}}, {0.0, 0.0, 1.0}, depth_m});
  };
  CHECK(joined_prism({standing(0.0, 0.0, 2.0), standing(1.0, 0.0, 2.0)}));
  CHECK_FALSE(joined_prism({standing(0.0, 0.0, 2.0), standing(1.0, 0.0, 2.1)}));
  CHECK_FALSE(joined_prism({standing(0.0, 0.0, 2.0), standing(1.0, 0.1, 2.0)}));
  CHECK_FALSE(joined_prism({standing(0.0, 0.0, 2.0), standing(1.0, -0.1, 2.1)}));
}

TEST_CASE("an outline comes apart in convex pieces of the same area", "[shapes]") {
  CHECK(convex_pieces(rectangle(0.0, 0.0, 2.0, 1.0))->size() == 1);
  Polygon star;
  for (int i = 0; i < 10; ++i) {
    const double angle = i * std::acos(-1.0) / 5.0;
    const double radius = i % 2 == 0 ? 1.0 : 0.4;
    star.push_back({radius * std::cos(angle), radius * std::sin(angle)});
  }
  Polygon from_the_inner_corner = l_shape();
  std::rotate(from_the_inner_corner.begin(), from_the_inner_corner.begin() + 3, from_the_inner_corner.end());
  for (const Polygon& outline : {l_shape(), from_the_inner_corner, star}) {
    const auto pieces = convex_pieces(outline);
    REQUIRE(pieces);
    double sum = 0.0;
    for (const Polygon& piece : *pieces) sum += area(piece);
    CHECK(sum == Approx(area(outline)).epsilon(1e-12));
  }
  Polygon crossed{{0.0, 0.0}, {1.0, 1.0}, {1.0, 0.0}, {0.0, 1.0}, {-1.0, 0.5}};
  const auto pieces = convex_pieces(crossed);
  CHECK((!pieces || !pieces->empty()));
  Polygon round(kMostCutterCorners + 1);
  for (std::size_t i = 0; i < round.size(); ++i) {
    const double angle = static_cast<double>(i) * 2.0 * std::acos(-1.0) / static_cast<double>(round.size());
    round[i] = {10.0 * std::cos(angle), 10.0 * std::sin(angle)};
  }
  CHECK_FALSE(convex_pieces(round));
}

TEST_CASE("a mirror keeps sizes and turns sides over", "[shapes]") {
  const Extrusion triangle{{{0.0, 0.0}, {1.0, 0.0}, {0.0, 1.0}}, {}, {0.0, 0.6, 0.8}, 2.0};
  const Motion mirror{{{5.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {-1.0, 0.0, 0.0}, {0.0, 0.0, 1.0}}, true};
  const Extrusion seen = mirror.extrusion(triangle);
  CHECK(seen.volume_m3() == Approx(triangle.volume_m3()));
  CHECK(dot(cross(seen.frame.x_axis, seen.frame.y_axis), seen.frame.z_axis) == Approx(1.0));
  const Vec3 expected = mirror.point(triangle.centroid());
  CHECK(length(seen.centroid() - expected) < 1e-12);
  // Two mirrors make none, and are made one after the other.
  const Motion twice = mirror.after(mirror);
  CHECK_FALSE(twice.is_mirrored);
  const Vec3 point{0.1, 0.2, 0.3};
  CHECK(length(twice.point(point) - mirror.point(mirror.point(point))) < 1e-12);
}

}  // namespace panel_dossier
