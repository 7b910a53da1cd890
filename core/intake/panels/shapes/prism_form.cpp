#include "core/intake/panels/shapes/prism_form.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

namespace panel_dossier {

namespace {

struct Reach {
  double from = std::numeric_limits<double>::infinity();
  double to = -std::numeric_limits<double>::infinity();

  void take(double value) {
    from = std::min(from, value);
    to = std::max(to, value);
  }
  double size() const { return to - from; }
};

/// Where the corners of the face stand along the axis.
Reach reach_of(const Polyhedron& body, const BodyFace& face, const Vec3& axis) {
  Reach reach;
  for (const FaceLoop& loop : face.loops) {
    for (const std::size_t index : loop) reach.take(dot(body.vertices[index], axis));
  }
  return reach;
}

/// How far its corners are apart, at least by half.
double size_of(const Polyhedron& body, const BodyFace& face) {
  const Vec3& first = body.vertices[face.loops.front().front()];
  double farthest_m = 0.0;
  for (const FaceLoop& loop : face.loops) {
    for (const std::size_t index : loop) farthest_m = std::max(farthest_m, length(body.vertices[index] - first));
  }
  return farthest_m;
}

enum class FaceRole { top, bottom, side, none };

FaceRole role_of(const Polyhedron& body, const BodyFace& face, const Vec3& axis, const Reach& whole) {
  const Reach reach = reach_of(body, face, axis);
  if (reach.from >= whole.to - kPrismTolerance_m) return FaceRole::top;
  if (reach.to <= whole.from + kPrismTolerance_m) return FaceRole::bottom;
  const Vec3 area = area_vector(body, face);
  // How far the face leans over its size.
  const bool is_upright = std::abs(dot(area, axis)) * size_of(body, face) <= kPrismTolerance_m * length(area);
  return is_upright ? FaceRole::side : FaceRole::none;
}

/// Edges that the faces do not share with each other, as from -> to.
class Boundary {
 public:
  void add(const BodyFace& face) {
    for (const FaceLoop& loop : face.loops) {
      for (std::size_t i = 0; i < loop.size(); ++i) add(loop[i], loop[(i + 1) % loop.size()]);
    }
  }

  /// None when they do not close.
  std::optional<std::vector<FaceLoop>> loops() {
    std::vector<FaceLoop> found;
    while (!edges_.empty()) {
      FaceLoop loop;
      const std::size_t start = edges_.begin()->first;
      std::size_t at = start;
      do {
        const auto step = edges_.find(at);
        if (step == edges_.end()) return std::nullopt;
        loop.push_back(at);
        at = step->second;
        edges_.erase(step);
      } while (at != start);
      found.push_back(std::move(loop));
    }
    return found;
  }

 private:
  std::multimap<std::size_t, std::size_t> edges_;

  void add(std::size_t from, std::size_t to) {
    const auto [first, last] = edges_.equal_range(to);
    const auto back = std::find_if(first, last, [from](const auto& edge) { return edge.second == from; });
    if (back != last) {
      edges_.erase(back);
    } else {
      edges_.emplace(from, to);
    }
  }
};

/// A frame at the foot of the prism whose x axis runs along its longest edge.
Frame frame_of(const Polyhedron& body, const FaceLoop& outline, const Vec3& axis, double height_m) {
  Vec3 longest;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec3 edge = body.vertices[outline[(i + 1) % outline.size()]] - body.vertices[outline[i]];
    const Vec3 level = edge - axis * dot(edge, axis);
    if (length(level) > length(longest) + kSamePoint_m) longest = level;
  }
  const Vec3 x = longest * (1.0 / length(longest));
  return {body.vertices[outline.front()] - axis * height_m, x, cross(axis, x), axis};
}

Polygon outline_in(const Polyhedron& body, const FaceLoop& loop, const Frame& frame) {
  Polygon outline;
  for (const std::size_t index : loop) {
    const Vec3 at = frame.to_local(body.vertices[index]);
    outline.push_back({at.x, at.y});
  }
  return without_idle_corners(outline);
}

}  // namespace

std::vector<Vec3> possible_axes(const Polyhedron& body) {
  // Of two faces that are not parallel, one is an end of the prism or both are sides: no other direction than these
  // three can be its axis. Large faces tell their directions best.
  Vec3 largest;
  for (const BodyFace& face : body.faces) {
    const Vec3 area = area_vector(body, face);
    if (length(area) > length(largest)) largest = area;
  }
  if (!(length(largest) > 0.0)) return {};
  const Vec3 first = largest * (1.0 / length(largest));
  Vec3 second;
  for (const BodyFace& face : body.faces) {
    const Vec3 area = area_vector(body, face);
    if (length(cross(first, area)) > length(cross(first, second))) second = area;
  }
  const Vec3 across = cross(first, second);
  if (!(length(across) > 0.0)) return {first};
  return {first, second * (1.0 / length(second)), across * (1.0 / length(across))};
}

Polygon without_idle_corners(const Polygon& outline) {
  const auto distance = [](const Vec2& a, const Vec2& b) { return std::hypot(b.x - a.x, b.y - a.y); };
  const auto is_idle = [&](const Vec2& before, const Vec2& at, const Vec2& after) {
    const double across = (at.x - before.x) * (after.y - before.y) - (at.y - before.y) * (after.x - before.x);
    return distance(before, at) <= kSamePoint_m || std::abs(across) <= kSamePoint_m * distance(before, after);
  };
  Polygon kept;
  for (const Vec2& corner : outline) {
    while (kept.size() > 1 && is_idle(kept[kept.size() - 2], kept.back(), corner)) kept.pop_back();
    if (kept.empty() || distance(kept.back(), corner) > kSamePoint_m) kept.push_back(corner);
  }
  while (kept.size() > 2 && is_idle(kept[kept.size() - 2], kept.back(), kept.front())) kept.pop_back();
  std::size_t first = 0;
  while (kept.size() - first > 2 && is_idle(kept.back(), kept[first], kept[first + 1])) ++first;
  kept.erase(kept.begin(), kept.begin() + static_cast<std::ptrdiff_t>(first));
  return kept;
}

std::optional<PrismForm> prism_along(const Polyhedron& body, const Vec3& axis) {
  Reach whole;
  for (const Vec3& vertex : body.vertices) whole.take(dot(vertex, axis));
  if (!(whole.size() > kPrismTolerance_m)) return std::nullopt;
  Boundary top;
  for (const BodyFace& face : body.faces) {
    const FaceRole role = role_of(body, face, axis, whole);
    if (role == FaceRole::none) return std::nullopt;
    if (role == FaceRole::top) top.add(face);
  }
  const auto loops = top.loops();
  if (!loops || loops->empty()) return std::nullopt;
  PrismForm form;
  form.outer.frame = frame_of(body, loops->front(), axis, whole.size());
  form.outer.depth_m = whole.size();
  for (const FaceLoop& loop : *loops) {
    Polygon outline = outline_in(body, loop, form.outer.frame);
    if (outline.size() < 3) continue;
    if (signed_area_m2(outline) < 0.0) {
      form.holes.push_back(std::move(outline));
    } else if (form.outer.outline.empty()) {
      form.outer.outline = std::move(outline);
    } else {
      return std::nullopt;
    }
  }
  if (form.outer.outline.empty()) return std::nullopt;
  return form;
}

std::optional<PrismForm> prism_form(const Polyhedron& body) {
  std::optional<PrismForm> longest;
  for (const Vec3& axis : possible_axes(body)) {
    auto form = prism_along(body, axis);
    if (form && (!longest || form->outer.depth_m > longest->outer.depth_m + kSamePoint_m)) longest = std::move(form);
  }
  return longest;
}

}  // namespace panel_dossier
