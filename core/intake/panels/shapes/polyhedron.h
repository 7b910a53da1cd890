// Bodies with plane faces, in metres: volume, box, cuts by planes.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/api/support/geometry.h"

namespace panel_dossier {

/// Points closer than a hundredth of a millimetre are one: exporters round to 0.01 mm at best.
inline constexpr double kSamePoint_m = 1e-5;

/// In m²; positive for an outline that runs anticlockwise.
double signed_area_m2(const Polygon& outline);

/// Indices of vertices, in the order in which the boundary is walked with the face on its left, seen from outside.
using FaceLoop = std::vector<std::size_t>;

/// A plane face: outer boundaries and those of its holes, which run the other way.
struct BodyFace {
  std::vector<FaceLoop> loops;
};

/// The half of space below a plane: towards the other side of its normal.
struct HalfSpace {
  Vec3 point;   ///< in the plane
  Vec3 normal;  ///< unit vector that points out of the half

  double distance_m(const Vec3& at) const { return dot(at - point, normal); }
  HalfSpace complement() const { return {point, normal * -1.0}; }
};

/// A body that its faces enclose: every edge is walked as often one way as the other. Faces look outwards.
struct Polyhedron {
  std::vector<Vec3> vertices;
  std::vector<BodyFace> faces;

  bool is_empty() const { return faces.empty(); }
  /// Volume in m³ by the divergence theorem; negative when the faces look inwards.
  double volume_m3() const;
  /// Of all vertices, along the axes of the frame they stand in. Precondition: there are some.
  Box3 bounds() const;
};

/// Sum over the loops, in m²: as long as the face is large, at right angles to it, pointing outwards.
Vec3 area_vector(const Polyhedron& body, const BodyFace& face);

/// The prism, less prisms of the same height over `holes`, which lie inside of the outline and apart from each other.
Polyhedron polyhedron_of(const Extrusion& solid, const std::vector<Polygon>& holes = {});
/// Along the axes of the frame it stands in.
Polyhedron polyhedron_of(const Box3& box);

/// What is left in the half space, closed by a new face in the plane; empty when nothing is. Vertices within
/// `kSamePoint_m` of the plane count as in it. None when the faces do not enclose a body.
std::optional<Polyhedron> cut_to(const Polyhedron& body, const HalfSpace& half);

/// The body less the convex cutter, in pieces that do not overlap; the body itself where they do not meet. None when
/// the faces do not enclose a body.
std::optional<std::vector<Polyhedron>> cut_away(const Polyhedron& body, const std::vector<HalfSpace>& cutter);

/// What both bodies share, in m³; `cutter` is convex. None when the faces do not enclose a body.
std::optional<double> common_volume_m3(const Polyhedron& body, const std::vector<HalfSpace>& cutter);

/// Where the x-y plane of `frame` cuts the body, in its coordinates: outer outlines anticlockwise, holes clockwise.
/// None when the faces do not enclose a body.
std::optional<std::vector<Polygon>> section(const Polyhedron& body, const Frame& frame);

/// The half spaces that a convex prism or a box is the common part of.
std::vector<HalfSpace> sides_of(const Extrusion& convex);
std::vector<HalfSpace> sides_of(const Box3& box);

}  // namespace panel_dossier
