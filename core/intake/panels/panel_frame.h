// The panel's own frame: which way is outside, which way is up, and where the inner lower corner is.
#pragma once

#include <optional>

#include "core/api/support/geometry.h"

namespace panel_dossier {

/// Turns the frame of the panel's placement so that z points up in the world and y goes through the panel. `size` is
/// the panel's extent along the axes of `placement`; `along_x` says that the layers of the panel lie along its x axis.
/// A placement that is already upright keeps its y axis, as the standard's walls have it, unless the panel is longer
/// along y than along x and thicker than any cassette.
Frame upright(const Frame& placement, const Vec3& size, bool along_x);

/// Half a turn about z: brings the outer face from -y to +y.
Frame turned_about(const Frame& frame);

}  // namespace panel_dossier
