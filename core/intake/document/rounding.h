// Rounding away what placing a shape adds to its coordinates.
#pragma once

#include "core/api/support/geometry.h"

namespace panel_dossier {

/// To the nanometre, far below any tolerance: without it, where a panel stands in the building would show in the last
/// digits of its parts.
double to_nanometre(double value_m);
Vec3 to_nanometre(const Vec3& point_m);
Box3 to_nanometre(const Box3& box_m);

}  // namespace panel_dossier
