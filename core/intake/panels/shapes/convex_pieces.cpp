#include "core/intake/panels/shapes/convex_pieces.h"

#include <algorithm>

#include "core/intake/panels/shapes/polyhedron.h"
#include "core/intake/panels/shapes/prism_form.h"

namespace panel_dossier {

namespace {

/// Twice the area of the triangle, positive when it is anticlockwise.
double turn_of(const Vec2& a, const Vec2& b, const Vec2& c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

bool is_convex(const Polygon& outline) {
  const std::size_t count = outline.size();
  for (std::size_t i = 0; i < count; ++i) {
    if (turn_of(outline[i], outline[(i + 1) % count], outline[(i + 2) % count]) < 0.0) return false;
  }
  return true;
}

bool is_in_triangle(const Vec2& p, const Vec2& a, const Vec2& b, const Vec2& c) {
  return turn_of(a, b, p) >= 0.0 && turn_of(b, c, p) >= 0.0 && turn_of(c, a, p) >= 0.0;
}

/// A corner that can be cut off without cutting anything else off.
bool is_ear(const Polygon& outline, std::size_t i) {
  const std::size_t count = outline.size();
  const Vec2& before = outline[(i + count - 1) % count];
  const Vec2& at = outline[i];
  const Vec2& after = outline[(i + 1) % count];
  if (turn_of(before, at, after) <= 0.0) return false;
  return std::none_of(outline.begin(), outline.end(), [&](const Vec2& other) {
    if (&other == &before || &other == &at || &other == &after) return false;
    return is_in_triangle(other, before, at, after);
  });
}

}  // namespace

std::optional<std::vector<Polygon>> convex_pieces(const Polygon& outline) {
  Polygon rest = without_idle_corners(outline);
  if (rest.size() < 3 || rest.size() > kMostCutterCorners) return std::nullopt;
  if (signed_area_m2(rest) < 0.0) std::reverse(rest.begin(), rest.end());
  if (is_convex(rest)) return std::vector<Polygon>{rest};
  std::vector<Polygon> pieces;
  while (rest.size() > 3) {
    std::size_t ear = 0;
    while (ear < rest.size() && !is_ear(rest, ear)) ++ear;
    if (ear == rest.size()) return std::nullopt;
    const std::size_t count = rest.size();
    pieces.push_back({rest[(ear + count - 1) % count], rest[ear], rest[(ear + 1) % count]});
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(ear));
  }
  pieces.push_back(rest);
  return pieces;
}

}  // namespace panel_dossier
