// A body that is a straight prism, seen as one: what the checks know as a solid.
#pragma once

#include <optional>
#include <vector>

#include "core/intake/panels/shapes/polyhedron.h"

namespace panel_dossier {

/// Faces of a prism lie within this of where its outline and height put them, m: a tenth of a millimetre, what exports
/// of meshes round to.
inline constexpr double kPrismTolerance_m = 1e-4;

/// A right prism with holes from end to end.
struct PrismForm {
  Extrusion outer;  ///< upright in its frame; anticlockwise
  std::vector<Polygon> holes;
};

/// Unit vectors among which the axis of the prism is, if the body is one; three at most.
std::vector<Vec3> possible_axes(const Polyhedron& body);

/// The prism that the body is along `axis` (unit vector); none when it is none.
std::optional<PrismForm> prism_along(const Polyhedron& body, const Vec3& axis);

/// The prism that the body is; of a box the one along its longest edge. None when it is none.
std::optional<PrismForm> prism_form(const Polyhedron& body);

/// The outline less corners that lie on a straight edge or on each other.
Polygon without_idle_corners(const Polygon& outline);

}  // namespace panel_dossier
