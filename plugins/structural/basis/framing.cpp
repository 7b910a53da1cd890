#include "plugins/structural/basis/framing.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/api/support/tolerances.h"

namespace panel_dossier::structural {

namespace {

constexpr double kSpliceGap_m = 0.100;          ///< pieces closer than this are stacked, not separate
constexpr double kRectangular = 0.98;           ///< share of its box that a rectangular solid fills
constexpr double kEqualSpacing = 0.10;          ///< spacings that differ by less are equal
constexpr double kLoadSharingSpacing_m = 0.61;  ///< common practice
constexpr std::size_t kLoadSharingMembers = 4;  ///< common practice

std::optional<std::string> unusable(const Part& part) {
  if (!part.bounds) return "'" + part.name + "' has no geometry";
  const Vec3 size = part.bounds->size();
  if (!(size.x > 0.0) || !(size.y > 0.0) || !(size.z > 0.0)) return "'" + part.name + "' has a zero or negative size";
  if (part.solid && part.solid->volume_m3() < kRectangular * size.x * size.y * size.z) {
    return "'" + part.name + "' is not of rectangular section";
  }
  return std::nullopt;
}

VerticalMember member_from(const Part& part, std::size_t index) {
  VerticalMember member;
  const Vec3 size = part.bounds->size();
  member.parts = {index};
  member.material = part.material;
  member.x_m = part.bounds->centre().x;
  member.width_m = size.x;
  member.depth_m = size.y;
  member.inside_y_m = part.bounds->min.y;
  member.bottom_m = part.bounds->min.z;
  member.top_m = part.bounds->max.z;
  return member;
}

bool same_section(const VerticalMember& a, const VerticalMember& b) {
  return a.material == b.material && std::abs(a.width_m - b.width_m) < kSameSize_m &&
         std::abs(a.depth_m - b.depth_m) < kSameSize_m;
}

bool stacks_on(const VerticalMember& upper, const VerticalMember& lower) {
  const double gap_m = upper.bottom_m - lower.top_m;
  return std::abs(upper.x_m - lower.x_m) < tolerance::kSameLine_m && same_section(upper, lower) &&
         gap_m > -tolerance::kSameLine_m && gap_m < kSpliceGap_m;
}

void order(std::vector<VerticalMember>& members) {
  std::sort(members.begin(), members.end(), [](const VerticalMember& a, const VerticalMember& b) {
    return std::pair(a.x_m, a.bottom_m) < std::pair(b.x_m, b.bottom_m);
  });
}

std::vector<VerticalMember> stacked(std::vector<VerticalMember> pieces) {
  std::sort(pieces.begin(), pieces.end(),
            [](const VerticalMember& a, const VerticalMember& b) { return a.bottom_m < b.bottom_m; });
  std::vector<VerticalMember> members;
  for (VerticalMember& piece : pieces) {
    const auto below = std::find_if(members.begin(), members.end(),
                                    [&](const VerticalMember& lower) { return stacks_on(piece, lower); });
    if (below == members.end()) {
      members.push_back(std::move(piece));
    } else {
      below->top_m = piece.top_m;
      below->parts.push_back(piece.parts.front());
    }
  }
  order(members);
  return members;
}

/// A neighbour takes load off a member only where it stands beside it over the whole length.
bool stands_beside(const VerticalMember& other, const VerticalMember& member) {
  const double tolerance_m = (1.0 - kWholeLength) * member.length_m();
  return other.bottom_m <= member.bottom_m + tolerance_m && other.top_m >= member.top_m - tolerance_m;
}

const VerticalMember* neighbour(const std::vector<VerticalMember>& members, const VerticalMember& member, int side) {
  const VerticalMember* nearest = nullptr;
  double nearest_m = 0.0;
  for (const VerticalMember& other : members) {
    const double distance_m = side * (other.x_m - member.x_m);
    if (distance_m <= tolerance::kSameLine_m || !stands_beside(other, member)) continue;
    if (nearest == nullptr || distance_m < nearest_m) {
      nearest = &other;
      nearest_m = distance_m;
    }
  }
  return nearest;
}

bool sheathed(const Panel& panel, const Project& project, const VerticalMember& member, bool inside) {
  double covered_m = 0.0;
  for (const Part& part : panel.parts) {
    if (part.kind != PartKind::sheet || !part.bounds || is_gypsum(project, part)) continue;
    const Box3& sheet = *part.bounds;
    const double gap_m = inside ? member.inside_y_m - sheet.max.y : sheet.min.y - (member.inside_y_m + member.depth_m);
    // A joint on the centre line is covered by the sheet on either side of it.
    const bool over_member =
        sheet.min.x < member.x_m - tolerance::kSameLine_m && sheet.max.x > member.x_m - tolerance::kSameLine_m;
    if (std::abs(gap_m) > tolerance::kMembrane_m || !over_member) continue;
    covered_m += std::max(0.0, overlap_m(upright(sheet), member.upright()));
  }
  return covered_m >= kWholeLength * member.length_m();
}

bool shares_load(const std::vector<VerticalMember>& members, const VerticalMember& member) {
  const VerticalMember* left = neighbour(members, member, -1);
  const VerticalMember* right = neighbour(members, member, 1);
  if (left == nullptr || right == nullptr || !member.restrained_along_wall()) return false;
  const auto alike = std::count_if(members.begin(), members.end(), [&](const VerticalMember& other) {
    return same_section(other, member) && stands_beside(other, member);
  });
  const double widest_m = std::max(*member.left_spacing_m, *member.right_spacing_m);
  return same_section(*left, member) && same_section(*right, member) &&
         static_cast<std::size_t>(alike) >= kLoadSharingMembers && widest_m <= kLoadSharingSpacing_m &&
         std::abs(*member.left_spacing_m - *member.right_spacing_m) <= kEqualSpacing * widest_m;
}

void share_the_wall(const Panel& panel, const std::vector<VerticalMember>& members, VerticalMember& member) {
  const VerticalMember* left = neighbour(members, member, -1);
  const VerticalMember* right = neighbour(members, member, 1);
  if (left != nullptr) member.left_spacing_m = member.x_m - left->x_m;
  if (right != nullptr) member.right_spacing_m = right->x_m - member.x_m;
  const double left_share_m = left != nullptr ? *member.left_spacing_m / 2.0 : std::max(member.x_m, 0.0);
  const double right_share_m =
      right != nullptr ? *member.right_spacing_m / 2.0 : std::max(panel.width_m.value - member.x_m, 0.0);
  member.tributary_width_m = left_share_m + right_share_m;
}

}  // namespace

Stretch along_wall(const Box3& box) {
  return {box.min.x, box.max.x};
}

Stretch upright(const Box3& box) {
  return {box.min.z, box.max.z};
}

bool is_gypsum(const Project& project, const Part& part) {
  const Material* material = material_at(project, part.material);
  if (material == nullptr) return false;
  const auto role = material->properties.text("Panel_Fire", "ProtectionRole");
  return material->category == "gypsum" || (role && role->value.starts_with("GYPSUM"));
}

Framing read_framing(const Panel& panel, const Project& project) {
  Framing framing;
  std::vector<VerticalMember> pieces;
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    const Part& part = panel.parts[i];
    if (part.kind != PartKind::stud && part.kind != PartKind::post) continue;
    if (auto problem = unusable(part)) {
      framing.problems.push_back(std::move(*problem));
    } else {
      pieces.push_back(member_from(part, i));
    }
  }
  framing.members = stacked(std::move(pieces));
  for (VerticalMember& member : framing.members) {
    share_the_wall(panel, framing.members, member);
    member.sheathed_inside = sheathed(panel, project, member, true);
    member.sheathed_outside = sheathed(panel, project, member, false);
  }
  for (VerticalMember& member : framing.members) member.shares_load = shares_load(framing.members, member);
  if (framing.members.empty() && framing.problems.empty()) {
    framing.problems.emplace_back("the panel has no studs or posts (IfcMember STUD or POST)");
  }
  return framing;
}

}  // namespace panel_dossier::structural
