// An outline as convex pieces.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/api/support/geometry.h"

namespace panel_dossier {

/// Outlines with more corners are not taken apart: the work grows with the cube of their number, and what cuts a wall
/// or a stud has a handful.
inline constexpr std::size_t kMostCutterCorners = 200;

/// The outline itself, anticlockwise, where it is convex, else triangles that make it up. None when it has more than
/// `kMostCutterCorners` corners or crosses itself.
std::optional<std::vector<Polygon>> convex_pieces(const Polygon& outline);

}  // namespace panel_dossier
