#include "core/intake/panels/shapes/motion.h"

namespace panel_dossier {

namespace {

Vec3 with_y_reversed(const Vec3& v) {
  return {v.x, -v.y, v.z};
}

/// The frame as a mirror sees it, with its y axis turned back so that it is right-handed again: a point of the mirrored
/// body has the mirrored coordinates in it.
Frame mirrored(const Frame& frame) {
  return {with_y_reversed(frame.origin), with_y_reversed(frame.x_axis), with_y_reversed(frame.y_axis) * -1.0,
          with_y_reversed(frame.z_axis)};
}

}  // namespace

Vec3 Motion::point(const Vec3& local) const {
  return frame.to_parent(is_mirrored ? with_y_reversed(local) : local);
}

Vec3 Motion::direction(const Vec3& local) const {
  return frame.direction_to_parent(is_mirrored ? with_y_reversed(local) : local);
}

Motion Motion::after(const Motion& first) const {
  const Frame inner = is_mirrored ? mirrored(first.frame) : first.frame;
  return {frame.to_parent(inner), is_mirrored != first.is_mirrored};
}

Extrusion Motion::extrusion(const Extrusion& local) const {
  Extrusion moved = local;
  moved.frame = frame.to_parent(is_mirrored ? mirrored(local.frame) : local.frame);
  if (!is_mirrored) return moved;
  for (Vec2& corner : moved.outline) corner.y = -corner.y;
  moved.direction = with_y_reversed(local.direction);
  return moved;
}

}  // namespace panel_dossier
