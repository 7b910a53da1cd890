#include "plugins/structural/basis/framing.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/api/support/tolerances.h"
#include "core/api/support/words.h"

namespace panel_dossier::structural {

namespace {

constexpr double kSpliceGap_m = 0.100;          ///< pieces closer than this are stacked, not separate
constexpr double kClearly = 2.0;                ///< ratio of sizes from which a member's direction is beyond doubt
constexpr double kEqualSpacing = 0.10;          ///< spacings that differ by less are equal
constexpr double kLoadSharingSpacing_m = 0.61;  ///< common practice
constexpr std::size_t kLoadSharingMembers = 4;  ///< common practice

VerticalMember member_from(const Part& part, std::size_t index, MemberSection read) {
  VerticalMember member;
  member.parts = {index};
  member.material = part.material;
  member.x_m = part.bounds->centre().x;
  member.width_m = read.section.width_m;
  member.depth_m = read.section.depth_m;
  member.section = read.section;
  member.doubts = std::move(read.doubts);
  member.inside_y_m = part.bounds->min.y;
  member.bottom_m = part.bounds->min.z;
  member.top_m = part.bounds->max.z;
  return member;
}

/// Whether something of the frame stands at this height beside, under or over a piece.
bool met_at(const Panel& panel, std::size_t piece, double height_m) {
  const Box3& box = *panel.parts[piece].bounds;
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    const Part& other = panel.parts[i];
    if (i == piece || !is_framing(other.kind) || !other.bounds) continue;
    const Box3& met = *other.bounds;
    const bool at_height =
        met.min.z <= height_m + tolerance::kSameLine_m && met.max.z >= height_m - tolerance::kSameLine_m;
    // A member that ends there may stand under it; one that only begins or ends beside it holds nothing.
    const double wide_m = overlap_m(along_wall(met), along_wall(box));
    const double deep_m = std::min(met.max.y, box.max.y) - std::max(met.min.y, box.min.y);
    if (at_height && wide_m > tolerance::kModelling_m && deep_m > tolerance::kModelling_m) return true;
  }
  return false;
}

bool has_rail_near(const Panel& panel, double height_m) {
  return std::any_of(panel.parts.begin(), panel.parts.end(), [&](const Part& part) {
    constexpr double kNear_m = 0.3;  // two rails on one another, and what lies between
    return part.kind == PartKind::rail && part.bounds && std::abs(part.bounds->centre().z - height_m) < kNear_m;
  });
}

/// Why an end of a piece is not known to be held; empty when both are. An end at the edge of the panel stands on what
/// the panel is fixed to, where the panel has no rail.
std::string free_end(const Panel& panel, std::size_t piece) {
  const Box3& box = *panel.parts[piece].bounds;
  for (const bool upper : {false, true}) {
    const double end_m = upper ? box.max.z : box.min.z;
    const double edge_m = upper ? panel.height_m.value : 0.0;
    if (met_at(panel, piece, end_m)) continue;
    if (std::abs(end_m - edge_m) < tolerance::kSameLine_m && !has_rail_near(panel, edge_m)) continue;
    return "'" + panel.parts[piece].name + "' meets no rail or other framing member at its " +
           (upper ? "upper" : "lower") + " end, " + fixed_text(end_m, 3) +
           " m above the foot of the panel, so what holds it there is not known";
  }
  return {};
}

bool same_outline(const Section& a, const Section& b) {
  if (!a.outline || !b.outline) return !a.outline && !b.outline;
  constexpr double kSameShare = 0.01;
  return std::abs(a.outline->area_m2 - b.outline->area_m2) < kSameShare * a.outline->area_m2 &&
         std::abs(a.outline->second_moment_m4 - b.outline->second_moment_m4) < kSameShare * a.outline->second_moment_m4;
}

/// Of pieces on one another the weaker counts.
void weaken(Section& section, const Section& other) {
  const auto lesser = [](double& left_m, double other_m) {
    if (other_m > 0.0) left_m = left_m > 0.0 ? std::min(left_m, other_m) : other_m;
  };
  section.depth_hole_m = std::max(section.depth_hole_m, other.depth_hole_m);
  section.width_hole_m = std::max(section.width_hole_m, other.width_hole_m);
  section.end_notch_m = std::max(section.end_notch_m, other.end_notch_m);
  lesser(section.notched_depth_m, other.notched_depth_m);
  lesser(section.notched_width_m, other.notched_width_m);
  lesser(section.end_depth_m, other.end_depth_m);
}

bool same_section(const VerticalMember& a, const VerticalMember& b) {
  return a.material == b.material && std::abs(a.width_m - b.width_m) < kSameSize_m &&
         std::abs(a.depth_m - b.depth_m) < kSameSize_m && same_outline(a.section, b.section);
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
      below->joints_m.push_back((below->top_m + piece.bottom_m) / 2.0);
      below->top_m = piece.top_m;
      below->parts.push_back(piece.parts.front());
      below->doubts.insert(below->doubts.end(), piece.doubts.begin(), piece.doubts.end());
      weaken(below->section, piece.section);
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

bool stands_upright(const Part& part) {
  if (!is_framing(part.kind) || part.kind == PartKind::batten) return false;
  const bool called_so = part.kind == PartKind::stud || part.kind == PartKind::post;
  if (!part.bounds) return called_so;
  const Vec3 size = part.bounds->size();
  if (!(size.x > 0.0) || !(size.z > 0.0)) return called_so;
  if (size.z > kClearly * size.x) return true;
  return called_so && !(size.x > kClearly * size.z);
}

bool lies_along_wall(const Part& part) {
  return is_framing(part.kind) && part.kind != PartKind::batten && !stands_upright(part);
}

bool stands_on(const VerticalMember& upper, const VerticalMember& lower) {
  const double deep_m = std::min(upper.inside_y_m + upper.depth_m, lower.inside_y_m + lower.depth_m) -
                        std::max(upper.inside_y_m, lower.inside_y_m);
  return std::abs(upper.bottom_m - lower.top_m) < tolerance::kSameLine_m &&
         overlap_m(upper.along_wall(), lower.along_wall()) > tolerance::kModelling_m &&
         deep_m > tolerance::kModelling_m;
}

bool is_rail(const Panel& panel, const Part& part) {
  if (!lies_along_wall(part) || !part.bounds) return false;
  if (part.kind == PartKind::rail) return true;
  const bool at_edge =
      part.bounds->min.z < tolerance::kSameLine_m || part.bounds->max.z > panel.height_m.value - tolerance::kSameLine_m;
  return at_edge && part.kind != PartKind::lintel;
}

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
    if (!stands_upright(part)) continue;
    MemberSection read = read_section(part, MemberAxis::upright);
    if (!read.problem.empty()) {
      framing.problems.push_back(std::move(read.problem));
      continue;
    }
    if (std::string free = free_end(panel, i); !free.empty()) framing.problems.push_back(std::move(free));
    pieces.push_back(member_from(part, i, std::move(read)));
  }
  framing.members = stacked(std::move(pieces));
  for (VerticalMember& member : framing.members) {
    share_the_wall(panel, framing.members, member);
    member.sheathed_inside = sheathed(panel, project, member, true);
    member.sheathed_outside = sheathed(panel, project, member, false);
  }
  for (VerticalMember& member : framing.members) {
    member.shares_load = shares_load(framing.members, member);
    if (!member.section.outline || member.restrained_on_both_faces()) continue;
    member.doubts.push_back("'" + panel.parts[member.parts.front()].name +
                            "': lateral torsional buckling (EN 1995-1-1 6.3.3), whose expressions are those of a "
                            "rectangle: sheathing on both faces would hold it");
  }
  if (framing.members.empty() && framing.problems.empty()) {
    framing.problems.emplace_back("the panel has no studs or posts (IfcMember STUD or POST)");
  }
  return framing;
}

}  // namespace panel_dossier::structural
