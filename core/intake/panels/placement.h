// Placements of the export -> frames in metres.
#pragma once

#include <optional>
#include <unordered_map>

#include "core/api/support/geometry.h"
#include "core/intake/panels/shapes/motion.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// Resolves chains of IfcLocalPlacement, each once. Belongs to one run on one thread.
class PlacementReader {
 public:
  PlacementReader(const ReadContext& context, double length_factor)
      : context_(context), length_factor_(length_factor) {}

  /// Frame of an object in the project's world. Reports a chain that leads back to itself; none then.
  /// An object without a placement stands at the world's origin.
  std::optional<Frame> of_object(const Element& object);

  /// Frame of an IfcAxis2Placement3D; the identity when `placement` is empty.
  std::optional<Frame> axis_placement(const Element& placement) const;
  /// Frame of an IfcAxis2Placement2D in its plane.
  std::optional<Frame> axis_placement_2d(const Element& placement) const;
  /// True for an IfcCartesianTransformationOperator that changes sizes, along one axis or all.
  bool scales(const Element& entity) const;
  /// What an IfcCartesianTransformationOperator does beside scaling. Without Axis2 it turns and does not mirror, which
  /// is what exporters mean that leave it out.
  std::optional<Motion> transformation(const Element& entity) const;

  /// Coordinates in metres; a missing third one is 0. Reports what is no point.
  std::optional<Vec3> point(const Element& entity) const;
  /// Unit vector. Reports what has no direction.
  std::optional<Vec3> direction(const Element& entity) const;

 private:
  const ReadContext& context_;
  double length_factor_;
  std::unordered_map<const void*, std::optional<Frame>> frames_;

  std::optional<Frame> world_frame(const Element& placement);
  std::optional<Frame> frame_from_axes(const Element& at, const Vec3& origin, const Vec3& z, const Vec3& x) const;
};

/// To the nanometre, far below any tolerance: without it, where a panel stands in the building would show in the last
/// digits of its parts.
double to_nanometre(double value_m);
Vec3 to_nanometre(const Vec3& point_m);
Box3 to_nanometre(const Box3& box_m);

}  // namespace panel_dossier
