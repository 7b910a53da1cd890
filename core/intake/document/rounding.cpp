#include "core/intake/document/rounding.h"

#include <cmath>

namespace panel_dossier {

double to_nanometre(double value_m) {
  constexpr double kNanometrePerMetre = 1e9;
  // Adding zero turns a negative zero into a positive one.
  return std::round(value_m * kNanometrePerMetre) / kNanometrePerMetre + 0.0;
}

Vec3 to_nanometre(const Vec3& point_m) {
  return {to_nanometre(point_m.x), to_nanometre(point_m.y), to_nanometre(point_m.z)};
}

Box3 to_nanometre(const Box3& box_m) {
  return {to_nanometre(box_m.min), to_nanometre(box_m.max)};
}

}  // namespace panel_dossier
