#include "sample_project/generator/shapes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace sample_export {

namespace {

/// Positions closer than this are one position: coordinates are sums of tenths of a millimetre.
constexpr double kSame_mm = 1e-6;

struct Interval {
  double from;
  double to;
};

Rectangles without(const Rectangle& whole, const Rectangle& hole) {
  if (!overlap(whole, hole)) return {whole};
  const double left = std::max(whole.x_min, hole.x_min);
  const double right = std::min(whole.x_max, hole.x_max);
  Rectangles rest;
  if (left > whole.x_min) rest.push_back({whole.x_min, left, whole.z_min, whole.z_max});
  if (hole.z_min > whole.z_min) rest.push_back({left, right, whole.z_min, hole.z_min});
  if (hole.z_max < whole.z_max) rest.push_back({left, right, hole.z_max, whole.z_max});
  if (right < whole.x_max) rest.push_back({right, whole.x_max, whole.z_min, whole.z_max});
  return rest;
}

/// The part of the only hole that overlaps `whole`, clipped to it; none when no hole or several do.
std::optional<Rectangle> only_cut(const Rectangle& whole, const Rectangles& holes) {
  std::optional<Rectangle> cut;
  for (const Rectangle& hole : holes) {
    if (!overlap(whole, hole)) continue;
    if (cut) return std::nullopt;
    cut = Rectangle{std::max(whole.x_min, hole.x_min), std::min(whole.x_max, hole.x_max),
                    std::max(whole.z_min, hole.z_min), std::min(whole.z_max, hole.z_max)};
  }
  return cut;
}

/// Anticlockwise from the lower left.
std::array<Corner, 4> corners(const Rectangle& face) {
  return {{{face.x_min, face.z_min}, {face.x_max, face.z_min}, {face.x_max, face.z_max}, {face.x_min, face.z_max}}};
}

std::vector<double> edges_in_x(const Rectangle& whole, const Rectangles& holes) {
  std::vector<double> edges{whole.x_min, whole.x_max};
  for (const Rectangle& hole : holes) {
    edges.push_back(std::clamp(hole.x_min, whole.x_min, whole.x_max));
    edges.push_back(std::clamp(hole.x_max, whole.x_min, whole.x_max));
  }
  std::sort(edges.begin(), edges.end());
  const auto same = [](double a, double b) { return b - a < kSame_mm; };
  edges.erase(std::unique(edges.begin(), edges.end(), same), edges.end());
  return edges;
}

/// The free heights of the column between x_min and x_max, from the bottom up.
std::vector<Interval> free_heights(const Rectangle& whole, const Rectangles& holes, double x_min, double x_max) {
  std::vector<Interval> taken;
  for (const Rectangle& hole : holes) {
    if (hole.x_min < x_max - kSame_mm && hole.x_max > x_min + kSame_mm) taken.push_back({hole.z_min, hole.z_max});
  }
  std::sort(taken.begin(), taken.end(), [](const Interval& a, const Interval& b) { return a.from < b.from; });
  std::vector<Interval> heights;
  double bottom = whole.z_min;
  for (const Interval& interval : taken) {
    if (interval.from > bottom + kSame_mm) heights.push_back({bottom, std::min(interval.from, whole.z_max)});
    bottom = std::max(bottom, interval.to);
  }
  if (bottom < whole.z_max - kSame_mm) heights.push_back({bottom, whole.z_max});
  return heights;
}

bool continues(const Rectangle& strip, double x_min, const Interval& height) {
  return x_min - strip.x_max < kSame_mm && std::abs(strip.z_min - height.from) < kSame_mm &&
         std::abs(strip.z_max - height.to) < kSame_mm;
}

}  // namespace

std::vector<double> steps(double from, double to, double step) {
  std::vector<double> positions;
  for (int i = 0; from + i * step < to; ++i) positions.push_back(from + i * step);
  return positions;
}

bool overlap(const Rectangle& a, const Rectangle& b) {
  return a.x_min < b.x_max - kSame_mm && b.x_min < a.x_max - kSame_mm && a.z_min < b.z_max - kSame_mm &&
         b.z_min < a.z_max - kSame_mm;
}

Rectangles minus(const Rectangle& whole, const Rectangles& holes) {
  Rectangles rest{whole};
  for (const Rectangle& hole : holes) {
    Rectangles next;
    for (const Rectangle& piece : rest) {
      const Rectangles cut = without(piece, hole);
      next.insert(next.end(), cut.begin(), cut.end());
    }
    rest = std::move(next);
  }
  return rest;
}

Outline cut_outline(const Rectangle& whole, const Rectangles& holes) {
  const auto cut = only_cut(whole, holes);
  if (!cut) return {};
  const auto sheet = corners(whole);
  const auto hole = corners(*cut);
  // Side k runs from corner k to corner k + 1.
  const std::array<bool, 4> touches = {cut->z_min - whole.z_min < kSame_mm, whole.x_max - cut->x_max < kSame_mm,
                                       whole.z_max - cut->z_max < kSame_mm, cut->x_min - whole.x_min < kSame_mm};
  const auto touched = std::count(touches.begin(), touches.end(), true);
  const bool through = (touches[0] && touches[2]) || (touches[1] && touches[3]);
  if (touched == 0 || touched > 2 || through) return {};
  Outline outline;
  for (std::size_t k = 0; k < 4; ++k) {
    const Corner& next = hole[(k + 1) % 4];
    const Corner& opposite = hole[(k + 2) % 4];
    const Corner& previous = hole[(k + 3) % 4];
    const bool takes_corner = touches[k] && touches[(k + 3) % 4];
    if (takes_corner) {
      outline.insert(outline.end(), {previous, opposite, next});
    } else {
      outline.push_back(sheet[k]);
    }
    if (touches[k] && touched == 1) outline.insert(outline.end(), {hole[k], previous, opposite, next});
  }
  return outline;
}

Rectangles free_strips(const Rectangle& whole, const Rectangles& holes, double smallest) {
  Rectangles strips;
  const std::vector<double> edges = edges_in_x(whole, holes);
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
    for (const Interval& height : free_heights(whole, holes, edges[i], edges[i + 1])) {
      const auto neighbour = std::find_if(strips.begin(), strips.end(),
                                          [&](const Rectangle& s) { return continues(s, edges[i], height); });
      if (neighbour != strips.end()) {
        neighbour->x_max = edges[i + 1];
      } else {
        strips.push_back({edges[i], edges[i + 1], height.from, height.to});
      }
    }
  }
  std::erase_if(strips, [&](const Rectangle& s) { return s.width() < smallest || s.height() < smallest; });
  return strips;
}

Box box_of(const Rectangle& face, double y_min, double y_max) {
  return {{face.x_min, y_min, face.z_min}, {face.x_max, y_max, face.z_max}};
}

}  // namespace sample_export
