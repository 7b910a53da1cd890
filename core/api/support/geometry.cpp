#include "core/api/support/geometry.h"

#include <algorithm>
#include <cmath>

namespace panel_dossier {

Vec3 operator+(const Vec3& a, const Vec3& b) {
  return {a.x + b.x, a.y + b.y, a.z + b.z};
}
Vec3 operator-(const Vec3& a, const Vec3& b) {
  return {a.x - b.x, a.y - b.y, a.z - b.z};
}
Vec3 operator*(const Vec3& a, double factor) {
  return {a.x * factor, a.y * factor, a.z * factor};
}
double dot(const Vec3& a, const Vec3& b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
Vec3 cross(const Vec3& a, const Vec3& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
double length(const Vec3& a) {
  return std::sqrt(dot(a, a));
}

Vec3 Frame::direction_to_parent(const Vec3& local) const {
  return x_axis * local.x + y_axis * local.y + z_axis * local.z;
}

Vec3 Frame::to_parent(const Vec3& local) const {
  return origin + direction_to_parent(local);
}

Vec3 Frame::to_local(const Vec3& parent) const {
  const Vec3 offset = parent - origin;
  return {dot(offset, x_axis), dot(offset, y_axis), dot(offset, z_axis)};
}

Frame Frame::to_parent(const Frame& local) const {
  return {to_parent(local.origin), direction_to_parent(local.x_axis), direction_to_parent(local.y_axis),
          direction_to_parent(local.z_axis)};
}

Frame Frame::to_local(const Frame& parent) const {
  const auto turned = [this](const Vec3& d) { return Vec3{dot(d, x_axis), dot(d, y_axis), dot(d, z_axis)}; };
  return {to_local(parent.origin), turned(parent.x_axis), turned(parent.y_axis), turned(parent.z_axis)};
}

Box3 united(const Box3& a, const Box3& b) {
  return {{std::min(a.min.x, b.min.x), std::min(a.min.y, b.min.y), std::min(a.min.z, b.min.z)},
          {std::max(a.max.x, b.max.x), std::max(a.max.y, b.max.y), std::max(a.max.z, b.max.z)}};
}

std::optional<Box3> intersection(const Box3& a, const Box3& b) {
  const Box3 common{{std::max(a.min.x, b.min.x), std::max(a.min.y, b.min.y), std::max(a.min.z, b.min.z)},
                    {std::min(a.max.x, b.max.x), std::min(a.max.y, b.max.y), std::min(a.max.z, b.max.z)}};
  const Vec3 size = common.size();
  if (size.x <= 0.0 || size.y <= 0.0 || size.z <= 0.0) return std::nullopt;
  return common;
}

namespace {

Vec2 operator-(const Vec2& a, const Vec2& b) {
  return {a.x - b.x, a.y - b.y};
}

double cross(const Vec2& a, const Vec2& b) {
  return a.x * b.y - b.x * a.y;
}

/// Twice the signed area (shoelace), positive for an anticlockwise outline. Taken about the first point: far from the
/// origin, products of large coordinates would cancel and lose the digits that matter.
double twice_signed_area(const Polygon& outline) {
  double sum = 0.0;
  for (std::size_t i = 0; i + 1 < outline.size(); ++i) {
    sum += cross(outline[i] - outline[0], outline[i + 1] - outline[0]);
  }
  return sum;
}

Vec2 mean_of_points(const Polygon& outline) {
  Vec2 sum;
  for (const Vec2& p : outline) sum = {sum.x + p.x, sum.y + p.y};
  const double count = outline.empty() ? 1.0 : static_cast<double>(outline.size());
  return {sum.x / count, sum.y / count};
}

/// Square of the distance from the first point to the farthest.
double squared_extent(const Polygon& outline) {
  double largest = 0.0;
  for (const Vec2& p : outline) {
    const Vec2 d = p - outline[0];
    largest = std::max(largest, d.x * d.x + d.y * d.y);
  }
  return largest;
}

/// Below this share of its squared extent an outline's area is the rounding of its coordinates; the thinnest real
/// outline, a foil of 0.1 mm over 100 m, has 1e-6.
constexpr double kNoArea = 1.0e-12;

}  // namespace

Polygon rectangle(double x_min, double y_min, double x_max, double y_max) {
  return {{x_min, y_min}, {x_max, y_min}, {x_max, y_max}, {x_min, y_max}};
}

double area(const Polygon& outline) {
  return std::abs(twice_signed_area(outline)) / 2.0;
}

Vec2 centroid(const Polygon& outline) {
  const double twice_area = twice_signed_area(outline);
  if (std::abs(twice_area) <= kNoArea * squared_extent(outline)) return mean_of_points(outline);
  const Vec2 base = outline[0];
  Vec2 sum;
  for (std::size_t i = 0; i + 1 < outline.size(); ++i) {
    const Vec2 a = outline[i] - base;
    const Vec2 b = outline[i + 1] - base;
    const double weight = cross(a, b);
    sum = {sum.x + (a.x + b.x) * weight, sum.y + (a.y + b.y) * weight};
  }
  return {base.x + sum.x / (3.0 * twice_area), base.y + sum.y / (3.0 * twice_area)};
}

double Extrusion::volume_m3() const {
  return area(outline) * depth_m * std::abs(direction.z);
}

Vec3 Extrusion::centroid() const {
  const Vec2 c = panel_dossier::centroid(outline);
  return frame.to_parent(Vec3{c.x, c.y, 0.0} + direction * (depth_m / 2.0));
}

Box3 Extrusion::bounds() const {
  if (outline.empty()) return {frame.origin, frame.origin};
  const Vec3 first = frame.to_parent(Vec3{outline.front().x, outline.front().y, 0.0});
  Box3 box{first, first};
  for (const Vec2& p : outline) {
    for (const double along : {0.0, depth_m}) {
      const Vec3 corner = frame.to_parent(Vec3{p.x, p.y, 0.0} + direction * along);
      box = united(box, {corner, corner});
    }
  }
  return box;
}

}  // namespace panel_dossier
