// Small geometry in metres: points, frames, boxes, polygons and straight extrusions.
#pragma once

#include <optional>
#include <vector>

namespace panel_dossier {

struct Vec2 {
  double x = 0.0;
  double y = 0.0;
};

struct Vec3 {
  double x = 0.0;
  double y = 0.0;
  double z = 0.0;
};

/// Vectors in m, or without unit for directions.
Vec3 operator+(const Vec3& a, const Vec3& b);
Vec3 operator-(const Vec3& a, const Vec3& b);
Vec3 operator*(const Vec3& a, double factor);
double dot(const Vec3& a, const Vec3& b);
Vec3 cross(const Vec3& a, const Vec3& b);
double length(const Vec3& a);  ///< Euclidean

/// A right-handed orthonormal frame: `origin` and the directions of its axes, all in the parent frame.
struct Frame {
  Vec3 origin;
  Vec3 x_axis{1.0, 0.0, 0.0};
  Vec3 y_axis{0.0, 1.0, 0.0};
  Vec3 z_axis{0.0, 0.0, 1.0};

  /// A point given in this frame, in the parent frame.
  Vec3 to_parent(const Vec3& local) const;
  /// A direction given in this frame, in the parent frame.
  Vec3 direction_to_parent(const Vec3& local) const;
  /// A point given in the parent frame, in this frame.
  Vec3 to_local(const Vec3& parent) const;
  /// A frame given in this frame, in the parent frame.
  Frame to_parent(const Frame& local) const;
  /// A frame given in the parent frame, in this frame.
  Frame to_local(const Frame& parent) const;
};

/// Axis-aligned box; `min` <= `max` in every coordinate.
struct Box3 {
  Vec3 min;
  Vec3 max;

  Vec3 size() const { return max - min; }
  Vec3 centre() const { return (min + max) * 0.5; }
};

/// The smallest box that holds both.
Box3 united(const Box3& a, const Box3& b);
/// The common part of both boxes; none when they share no volume.
std::optional<Box3> intersection(const Box3& a, const Box3& b);

/// A closed outline that does not cross itself, in m, without its first point repeated; either direction.
using Polygon = std::vector<Vec2>;

/// Anticlockwise from its lower left corner, for `x_min` < `x_max` and `y_min` < `y_max`.
Polygon rectangle(double x_min, double y_min, double x_max, double y_max);

/// Unsigned area in m²; 0 for fewer than three points.
double area(const Polygon& outline);
/// Centroid of the area; the mean of the points when there is no area to speak of, the origin when there are none.
Vec2 centroid(const Polygon& outline);

/// A straight prism: `outline` in the x-y plane of `frame`, extruded by `depth_m` along `direction` (in `frame`).
struct Extrusion {
  Polygon outline;
  Frame frame;
  Vec3 direction{0.0, 0.0, 1.0};  ///< unit vector in `frame`; oblique is allowed
  double depth_m = 0.0;           ///< along `direction`, not negative

  double volume_m3() const;
  Vec3 centroid() const;  ///< in the parent of `frame`
  Box3 bounds() const;    ///< in the parent of `frame`
};

}  // namespace panel_dossier
