// Areas and centroids of textbook shapes. Closed forms hold to rounding (1e-12 relative); values printed in a book hold
// to half a unit of their last digit.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <numbers>
#include <numeric>
#include <random>
#include <utility>

#include "core/api/support/geometry.h"

using namespace panel_dossier;

namespace {

constexpr double kRounding = 1e-12;

Approx near(double value) {
  return Approx(value).margin(kRounding).epsilon(kRounding);
}

/// Regular polygon, or the upper half of one when `turn` is pi.
Polygon arc(double x, double y, double radius, int sides, double turn) {
  Polygon outline;
  const int points = turn < 6.0 ? sides + 1 : sides;
  for (int i = 0; i < points; ++i) {
    const double angle = turn * i / sides;
    outline.push_back({x + radius * std::cos(angle), y + radius * std::sin(angle)});
  }
  return outline;
}

}  // namespace

// Trapezium with parallel sides a (base) and b at distance h: A = h(a+b)/2, centroid at h(a+2b)/(3(a+b)) above a.
// Closed form of every mechanics handbook, for example Dubbel, Handbook of Mechanical Engineering, 1994 (from memory).
TEST_CASE("a trapezium has the handbook's area and centroid") {
  const double a = 4.5;
  const double b = 2.1;
  const double h = 3.3;
  const Polygon trapezium{{0.0, 0.0}, {a, 0.0}, {b, h}, {0.0, h}};
  CHECK(area(trapezium) == near(h * (a + b) / 2.0));
  CHECK(centroid(trapezium).y == near(h * (a + 2.0 * b) / (3.0 * (a + b))));
  // Right-angled at the left: x = (a² + ab + b²) / (3(a + b)).
  CHECK(centroid(trapezium).x == near((a * a + a * b + b * b) / (3.0 * (a + b))));
}

// A triangle's centroid is the mean of its corners: Euclidean geometry, closed form.
TEST_CASE("a triangle's centroid is the mean of its corners") {
  const Polygon triangle{{0.3, 0.1}, {4.9, 0.7}, {1.6, 3.8}};
  CHECK(centroid(triangle).x == near((0.3 + 4.9 + 1.6) / 3.0));
  CHECK(centroid(triangle).y == near((0.1 + 0.7 + 3.8) / 3.0));
}

// Angle L8×6×1: A = 13.0 in², x = 1.65 in, y = 2.65 in. AISC Steel Construction Manual, 13th edition, 2005, table 1-7
// (from memory). The rounding of the inner corner does not show in the printed digits.
TEST_CASE("an unequal angle has the steel manual's area and centroid") {
  const Polygon angle{{0.0, 0.0}, {6.0, 0.0}, {6.0, 1.0}, {1.0, 1.0}, {1.0, 8.0}, {0.0, 8.0}};
  CHECK(area(angle) == Approx(13.0).margin(0.05).epsilon(0));
  CHECK(centroid(angle).x == Approx(1.65).margin(0.005).epsilon(0));
  CHECK(centroid(angle).y == Approx(2.65).margin(0.005).epsilon(0));
}

// Rectangle 120×80 with a triangle below, a half disc above and a round hole: A = 13.828·10³ mm², x = 54.8 mm,
// y = 36.6 mm. Beer and Johnston, Vector Mechanics for Engineers: Statics, sample problem 5.1 (from memory).
TEST_CASE("the textbook's composite plate has the textbook's centroid") {
  constexpr int kSides = 3600;  // a polygon of so many sides misses the circle's area by less than a millionth
  const Polygon rectangle{{0.0, 0.0}, {120.0, 0.0}, {120.0, 80.0}, {0.0, 80.0}};
  const Polygon triangle{{0.0, 0.0}, {0.0, -60.0}, {120.0, 0.0}};
  const Polygon half_disc = arc(60.0, 80.0, 60.0, kSides, std::numbers::pi);
  const Polygon hole = arc(60.0, 80.0, 40.0, kSides, 2.0 * std::numbers::pi);
  double total = 0.0;
  Vec2 moment;
  for (const auto& [shape, sign] : {std::pair{rectangle, 1.0}, {triangle, 1.0}, {half_disc, 1.0}, {hole, -1.0}}) {
    const double part = sign * area(shape);
    total += part;
    moment = {moment.x + part * centroid(shape).x, moment.y + part * centroid(shape).y};
  }
  CHECK(total == Approx(13828.0).margin(0.5).epsilon(0));
  CHECK(moment.x / total == Approx(54.8).margin(0.05).epsilon(0));
  CHECK(moment.y / total == Approx(36.6).margin(0.05).epsilon(0));
}

// Area of a regular polygon of n sides in a circle of radius R: n R² sin(2π/n) / 2, closed form.
TEST_CASE("a regular polygon has the closed form's area and its middle as centroid") {
  for (const int sides : {3, 4, 5, 6, 8, 12, 360}) {
    const Polygon polygon = arc(2.0, -1.0, 3.0, sides, 2.0 * std::numbers::pi);
    CHECK(area(polygon) == near(sides * 9.0 * std::sin(2.0 * std::numbers::pi / sides) / 2.0));
    CHECK(centroid(polygon).x == near(2.0));
    CHECK(centroid(polygon).y == near(-1.0));
  }
}

// Distance of a half disc's centroid from its diameter: 4R/(3π), closed form. The chords' defect is of order (π/n)².
TEST_CASE("a half disc's centroid tends to four thirds of the radius over pi") {
  constexpr int kSides = 2000;
  const double defect = std::pow(std::numbers::pi / kSides, 2);
  CHECK(centroid(arc(0.0, 0.0, 1.5, kSides, std::numbers::pi)).y ==
        Approx(4.0 * 1.5 / (3.0 * std::numbers::pi)).epsilon(defect));
}

// Pick's theorem: a polygon with corners on the unit grid, I grid points inside and B on its edges has A = I + B/2 − 1.
// G. Pick, Geometrisches zur Zahlenlehre, 1899 (from memory). Counting points is independent of the shoelace rule.
TEST_CASE("lattice triangles obey Pick's theorem") {
  std::mt19937 random(9);
  std::uniform_int_distribution<int> grid(-15, 15);
  for (int i = 0; i < 200; ++i) {
    const int x[3] = {grid(random), grid(random), grid(random)};
    const int y[3] = {grid(random), grid(random), grid(random)};
    const auto side = [&](int a, int b, int px, int py) {
      return (x[b] - x[a]) * (py - y[a]) - (y[b] - y[a]) * (px - x[a]);
    };
    if (side(0, 1, x[2], y[2]) == 0) continue;
    int inside = 0;
    for (int px = -15; px <= 15; ++px) {
      for (int py = -15; py <= 15; ++py) {
        const int s[3] = {side(0, 1, px, py), side(1, 2, px, py), side(2, 0, px, py)};
        inside += (s[0] > 0 && s[1] > 0 && s[2] > 0) || (s[0] < 0 && s[1] < 0 && s[2] < 0) ? 1 : 0;
      }
    }
    int on_edges = 0;
    for (int a = 0; a < 3; ++a) {
      const int b = (a + 1) % 3;
      on_edges += std::gcd(std::abs(x[b] - x[a]), std::abs(y[b] - y[a]));
    }
    Polygon outline;
    for (int a = 0; a < 3; ++a) outline.push_back({static_cast<double>(x[a]), static_cast<double>(y[a])});
    REQUIRE(area(outline) == inside + on_edges / 2.0 - 1.0);
  }
}

// Volume of an oblique prism is base area times height (Cavalieri's principle, closed form).
TEST_CASE("an oblique prism has the volume of the upright one of equal height") {
  const Polygon base{{0.0, 0.0}, {2.0, 0.0}, {0.0, 1.0}};
  const Extrusion upright{base, {}, {0.0, 0.0, 1.0}, 3.0};
  const Extrusion oblique{base, {}, {0.6, 0.0, 0.8}, 3.75};
  CHECK(oblique.volume_m3() == near(upright.volume_m3()));
  CHECK(oblique.centroid().z == near(upright.centroid().z));
}
