#include "plugins/structural/studs/composite_flange.h"

#include <algorithm>

#include "core/api/support/tolerances.h"

namespace panel_dossier::structural {

namespace {

constexpr double kWholeLength = 0.95;  ///< share of a length that counts as all of it

double half_width_m(const VerticalMember& member) {
  return member.width_m / 2.0;
}

bool overlap(double from_m, double to_m, double other_from_m, double other_to_m) {
  return std::min(to_m, other_to_m) - std::max(from_m, other_from_m) > tolerance::kSameLine_m;
}

bool covers(const Box3& sheet, const VerticalMember& member) {
  const double covered_m = std::min(sheet.max.z, member.top_m) - std::max(sheet.min.z, member.bottom_m);
  return covered_m >= kWholeLength * member.length_m();
}

/// Clear distance to the nearest member on one side (-1 left, 1 right) at any part of the height.
std::optional<double> clear_distance_m(const Framing& framing, const VerticalMember& member, int side) {
  std::optional<double> nearest_m;
  for (const VerticalMember& other : framing.members) {
    const double distance_m = side * (other.x_m - member.x_m);
    if (distance_m <= tolerance::kSameLine_m || !overlap(other.bottom_m, other.top_m, member.bottom_m, member.top_m))
      continue;
    const double clear_m = std::max(0.0, distance_m - half_width_m(other) - half_width_m(member));
    if (!nearest_m || clear_m < *nearest_m) nearest_m = clear_m;
  }
  return nearest_m;
}

/// Distance from the face of the member to an opening on that side.
std::optional<double> opening_distance_m(const Panel& panel, const VerticalMember& member, int side) {
  std::optional<double> nearest_m;
  for (const Opening& opening : panel.openings) {
    if (!overlap(opening.z_min_m, opening.z_max_m, member.bottom_m, member.top_m)) continue;
    if (side * ((opening.x_min_m + opening.x_max_m) / 2.0 - member.x_m) <= 0.0) continue;
    const double edge_m = side < 0 ? member.x_m - opening.x_max_m : opening.x_min_m - member.x_m;
    const double distance_m = std::max(0.0, edge_m - half_width_m(member));
    if (!nearest_m || distance_m < *nearest_m) nearest_m = distance_m;
  }
  return nearest_m;
}

/// Sheet beside the member on one side.
void reach(FlangeGeometry& geometry, const Panel& panel, const Framing& framing, const VerticalMember& member,
           const Box3& sheet, int side) {
  const double edge_m = side < 0 ? member.x_m - sheet.min.x : sheet.max.x - member.x_m;
  double reach_m = edge_m - half_width_m(member);
  if (reach_m <= tolerance::kSameLine_m) return;
  if (const auto clear_m = clear_distance_m(framing, member, side)) {
    if (reach_m >= *clear_m) geometry.clear_m = std::max(geometry.clear_m, *clear_m);
    reach_m = std::min(reach_m, *clear_m / 2.0);
  }
  if (const auto opening_m = opening_distance_m(panel, member, side)) reach_m = std::min(reach_m, *opening_m);
  double& width_m = side < 0 ? geometry.left_m : geometry.right_m;
  width_m = std::max(width_m, reach_m);
}

void add_sheet(FlangeGeometry& geometry, const Panel& panel, const Framing& framing, const VerticalMember& member,
               const Box3& sheet) {
  const double from_m = member.x_m - half_width_m(member);
  const double to_m = member.x_m + half_width_m(member);
  geometry.on_stud_m += std::min(sheet.max.x, to_m) - std::max(sheet.min.x, from_m);
  const auto on_stud = [&](double edge_m) {
    return edge_m > from_m - tolerance::kSameLine_m && edge_m < to_m + tolerance::kSameLine_m;
  };
  if (on_stud(sheet.min.x) || on_stud(sheet.max.x)) ++geometry.edge_rows;
  for (const int side : {-1, 1}) reach(geometry, panel, framing, member, sheet, side);
}

}  // namespace

FlangeGeometry flange_geometry(const Panel& panel, const Framing& framing, std::size_t member,
                               const SheathingFace& face) {
  const VerticalMember& stud = framing.members[member];
  FlangeGeometry geometry;
  geometry.not_continuous = "no sheet in one piece over its whole length";
  for (const std::size_t i : face.sheets) {
    const Box3& sheet = *panel.parts[i].bounds;
    const bool on_stud =
        overlap(sheet.min.x, sheet.max.x, stud.x_m - half_width_m(stud), stud.x_m + half_width_m(stud));
    if (!on_stud || !covers(sheet, stud)) continue;
    const bool directed = !face.product.starts_with("P") || face.product == "plywood";
    if (directed && sheet.size().z < sheet.size().x) {
      geometry.not_continuous = "the sheet lies across it";
      continue;
    }
    add_sheet(geometry, panel, framing, stud, sheet);
  }
  if (geometry.on_stud_m > 0.0) geometry.not_continuous.clear();
  return geometry;
}

double effective_width_m(const FlangeGeometry& geometry, const FlangeLimits& limits) {
  const double side_m = std::min(limits.shear_lag_m, limits.buckling_m) / 2.0;
  return geometry.on_stud_m + std::min(geometry.left_m, side_m) + std::min(geometry.right_m, side_m);
}

}  // namespace panel_dossier::structural
