// A rigid motion that may mirror: how a mapped copy of a shape stands.
#pragma once

#include "core/api/support/geometry.h"

namespace panel_dossier {

/// What an IfcCartesianTransformationOperator3D without scale does to a shape.
struct Motion {
  Frame frame;               ///< applied last
  bool is_mirrored = false;  ///< y is reversed first

  Vec3 point(const Vec3& local) const;
  Vec3 direction(const Vec3& local) const;
  /// The motion that makes `first` and then this one.
  Motion after(const Motion& first) const;
  /// A mirrored prism is the prism of the mirrored outline, so its frame stays right-handed.
  Extrusion extrusion(const Extrusion& local) const;
};

}  // namespace panel_dossier
