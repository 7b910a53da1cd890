#include "core/dossier/layout/hatch.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace panel_dossier {

namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

struct Family {
  double angle_rad;
  double spacing;
};

// Spacings in points. Each hatch differs from every other in direction, density or number of families.
std::vector<Family> families(Hatch hatch) {
  switch (hatch) {
    case Hatch::timber: return {{45 * kDegree, 3.4}};
    case Hatch::insulation: return {{62 * kDegree, 7.0}, {-62 * kDegree, 7.0}};
    case Hatch::board: return {{-45 * kDegree, 1.9}};
    case Hatch::masonry: return {{45 * kDegree, 5.0}, {0.0, 5.0}};
    case Hatch::glass: return {{20 * kDegree, 6.0}};
    case Hatch::metal: return {{45 * kDegree, 1.5}, {-45 * kDegree, 1.5}};
    case Hatch::air: return {{0.0, 3.0}};
    case Hatch::membrane:
    case Hatch::none: break;
  }
  return {};
}

double smaller_extent(const Polygon& outline) {
  const auto [left, right] =
      std::minmax_element(outline.begin(), outline.end(), [](Vec2 a, Vec2 b) { return a.x < b.x; });
  const auto [low, high] =
      std::minmax_element(outline.begin(), outline.end(), [](Vec2 a, Vec2 b) { return a.y < b.y; });
  return std::min(right->x - left->x, high->y - low->y);
}

// Crossings of the horizontal line at `height` with the outline, in ascending x.
std::vector<double> crossings(const Polygon& outline, double height) {
  std::vector<double> found;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2& a = outline[i];
    const Vec2& b = outline[(i + 1) % outline.size()];
    if ((a.y <= height) == (b.y <= height)) continue;
    found.push_back(a.x + (height - a.y) / (b.y - a.y) * (b.x - a.x));
  }
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace

std::vector<Segment> hatch_lines(const Polygon& outline, double angle_rad, double spacing) {
  constexpr std::size_t kMostLines = 4000;  // an outline that asks for more would print black anyway
  std::vector<Segment> segments;
  if (outline.size() < 3 || spacing <= 0.0) return segments;
  const double cosine = std::cos(angle_rad);
  const double sine = std::sin(angle_rad);
  Polygon turned;
  for (const Vec2& point : outline)
    turned.push_back({point.x * cosine + point.y * sine, point.y * cosine - point.x * sine});
  const auto [low, high] = std::minmax_element(turned.begin(), turned.end(), [](Vec2 a, Vec2 b) { return a.y < b.y; });
  const double top = high->y;
  std::size_t lines = 0;
  // Lines lie at whole multiples of the spacing, so that the hatches of neighbouring outlines join up.
  for (double height = std::ceil(low->y / spacing) * spacing; height < top && lines < kMostLines;
       height += spacing, ++lines) {
    const auto at = crossings(turned, height);
    for (std::size_t i = 0; i + 1 < at.size(); i += 2) {
      const auto back = [&](double x) { return Vec2{x * cosine - height * sine, x * sine + height * cosine}; };
      segments.emplace_back(back(at[i]), back(at[i + 1]));
    }
  }
  return segments;
}

HatchMarks hatch_marks(const Polygon& outline, Hatch hatch) {
  constexpr double kTooThinToHatch = 1.6;
  HatchMarks marks;
  if (hatch == Hatch::none || outline.size() < 3) return marks;
  marks.dashed = hatch == Hatch::air || hatch == Hatch::glass;
  marks.solid = hatch == Hatch::membrane || (hatch != Hatch::air && smaller_extent(outline) < kTooThinToHatch);
  if (marks.solid) return marks;
  for (const Family& family : families(hatch)) {
    const auto lines = hatch_lines(outline, family.angle_rad, family.spacing);
    marks.segments.insert(marks.segments.end(), lines.begin(), lines.end());
  }
  return marks;
}

const char* hatch_name(Hatch hatch) {
  switch (hatch) {
    case Hatch::timber: return "timber";
    case Hatch::insulation: return "insulation";
    case Hatch::board: return "board";
    case Hatch::membrane: return "membrane";
    case Hatch::masonry: return "masonry";
    case Hatch::glass: return "glass";
    case Hatch::metal: return "metal";
    case Hatch::air: return "air";
    case Hatch::none: break;
  }
  return "not hatched";
}

}  // namespace panel_dossier
