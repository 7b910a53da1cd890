#include "core/api/support/parts_in_place.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

#include "core/api/support/tolerances.h"
#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

/// Members are notched into each other and drawn through rails by less than this share of the smaller one.
constexpr double kJoinedShare = 0.05;
/// A ledger or a stub may stand out of the panel's own box by so much (common practice).
constexpr double kOverhang_m = 0.1;

bool has_place(const Part& part) {
  return part.bounds && part.kind != PartKind::fastener;
}

double volume(const Box3& box) {
  const Vec3 size = box.size();
  return size.x * size.y * size.z;
}

bool same_box(const Box3& a, const Box3& b) {
  return length(a.min - b.min) < tolerance::kModelling_m && length(a.max - b.max) < tolerance::kModelling_m;
}

std::string named(const Part& part) {
  const Vec3 at = part.bounds->centre();
  return "'" + part.name + "' at x " + fixed_text(at.x, 2) + ", z " + fixed_text(at.z, 2) + " m";
}

/// A solid that nearly fills its box takes up the room of the box; a bent or oblique one may not.
bool fills_its_box(const Part& part) {
  constexpr double kLeastShare = 0.9;
  if (!part.volume_m3 && !part.solid) return true;
  const double filled_m3 = part.volume_m3 ? part.volume_m3->value : part.solid->volume_m3();
  return filled_m3 >= kLeastShare * volume(*part.bounds);
}

bool take_the_same_room(const Part& a, const Part& b) {
  if (!is_framing(a.kind) || !is_framing(b.kind) || !fills_its_box(a) || !fills_its_box(b)) return false;
  const auto common = intersection(*a.bounds, *b.bounds);
  return common && volume(*common) > kJoinedShare * std::min(volume(*a.bounds), volume(*b.bounds));
}

bool is_outside(const Part& part, const Panel& panel) {
  const Box3& box = *part.bounds;
  return box.min.x < -kOverhang_m || box.max.x > panel.width_m.value + kOverhang_m || box.min.z < -kOverhang_m ||
         box.max.z > panel.height_m.value + kOverhang_m;
}

/// Framing of the panel's depth only: linings and sub-frames of a window lie in the opening by nature.
bool runs_through(const Part& part, const Opening& opening) {
  if (part.kind == PartKind::blocking || part.kind == PartKind::batten) return false;
  const Box3& box = *part.bounds;
  const double x = std::min(box.max.x, opening.x_max_m) - std::max(box.min.x, opening.x_min_m);
  const double z = std::min(box.max.z, opening.z_max_m) - std::max(box.min.z, opening.z_min_m);
  return x > tolerance::kSameLine_m && z > tolerance::kSameLine_m;
}

}  // namespace

std::vector<std::string> parts_out_of_place(const Panel& panel) {
  std::vector<std::string> found;
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    const Part& part = panel.parts[i];
    if (!has_place(part)) continue;
    if (is_framing(part.kind)) {
      if (is_outside(part, panel)) found.push_back(named(part) + " stands outside of the panel");
      for (const Opening& opening : panel.openings) {
        if (runs_through(part, opening)) found.push_back(named(part) + " runs through opening '" + opening.name + "'");
      }
    }
    for (std::size_t j = i + 1; j < panel.parts.size(); ++j) {
      const Part& other = panel.parts[j];
      if (!has_place(other)) continue;
      if (part.kind == other.kind && part.material == other.material && same_box(*part.bounds, *other.bounds)) {
        found.push_back(named(part) + " is there twice");
      } else if (take_the_same_room(part, other)) {
        found.push_back(named(part) + " and " + named(other) + " take up the same room");
      }
    }
  }
  return found;
}

}  // namespace panel_dossier
