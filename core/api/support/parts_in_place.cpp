#include "core/api/support/parts_in_place.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>

#include "core/api/support/tolerances.h"
#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

/// Members are notched into each other and drawn through rails by less than this share of the smaller one.
constexpr double kJoinedShare = 0.05;
/// Tongues and laps of boards, and what slabs are cut wider to hold by friction, are drawn into the neighbour by no
/// more than this (common practice).
constexpr double kTongue_m = 0.02;
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

/// A solid that nearly fills its box takes up the room of the box: end cuts, holes and notches leave more than this of
/// it, an I-shape or an oblique brace less.
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

bool is_board_or_slab(const Part& part) {
  return part.kind == PartKind::sheet || part.kind == PartKind::insulation;
}

/// What a board or slab takes up of the face, in x and z; empty where its shape does not tell. A prism through the wall
/// shows its outline, with what is cut out of it; another one its box.
Polygon face_of(const Part& part) {
  const Box3& box = *part.bounds;
  if (!part.solid) return fills_its_box(part) ? rectangle(box.min.x, box.min.z, box.max.x, box.max.z) : Polygon();
  const Extrusion& solid = *part.solid;
  const Vec3 way = solid.frame.direction_to_parent(solid.direction);
  constexpr double kSameWay = 0.9999;  // cosine of directions that are one
  if (std::abs(way.y) < kSameWay * length(way)) {
    return fills_its_box(part) ? rectangle(box.min.x, box.min.z, box.max.x, box.max.z) : Polygon();
  }
  Polygon face;
  for (const Vec2& corner : solid.outline) {
    const Vec3 at = solid.frame.to_parent(Vec3{corner.x, corner.y, 0.0});
    face.push_back({at.x, at.z});
  }
  return face;
}

/// Where an upright line lies inside of an outline: heights in pairs, ascending.
std::vector<double> heights_inside(const Polygon& face, double x) {
  std::vector<double> found;
  for (std::size_t i = 0, j = face.size() - 1; i < face.size(); j = i++) {
    const Vec2& a = face[i];
    const Vec2& b = face[j];
    if ((a.x <= x) == (b.x <= x)) continue;
    found.push_back(a.y + (x - a.x) / (b.x - a.x) * (b.y - a.y));
  }
  std::sort(found.begin(), found.end());
  return found;
}

/// Where edges of both outlines cross, by x.
void add_crossings(const Polygon& one, const Polygon& other, std::vector<double>& x) {
  for (std::size_t i = 0; i < one.size(); ++i) {
    const Vec2& a = one[i];
    const Vec2& b = one[(i + 1) % one.size()];
    for (std::size_t j = 0; j < other.size(); ++j) {
      const Vec2& c = other[j];
      const Vec2& d = other[(j + 1) % other.size()];
      const double across = (b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x);
      if (across == 0.0) continue;
      const double share = ((c.x - a.x) * (d.y - c.y) - (c.y - a.y) * (d.x - c.x)) / across;
      if (share > 0.0 && share < 1.0) x.push_back(a.x + share * (b.x - a.x));
    }
  }
}

/// What two outlines share: its area, and its larger size along x or upright.
struct Shared {
  double area_m2 = 0.0;
  double longest_m = 0.0;

  /// Of a strip of that area and length.
  double width_m() const { return longest_m > 0.0 ? area_m2 / longest_m : 0.0; }
};

/// Between two neighbouring corners or crossings all edges are straight, so a line half-way between gives the area.
Shared shared_face(const Polygon& one, const Polygon& other) {
  std::vector<double> x;
  for (const Polygon* face : {&one, &other}) {
    for (const Vec2& corner : *face) x.push_back(corner.x);
  }
  add_crossings(one, other, x);
  std::sort(x.begin(), x.end());
  Shared shared;
  std::optional<Box3> extent;
  for (std::size_t i = 0; i + 1 < x.size(); ++i) {
    const double middle = (x[i] + x[i + 1]) / 2.0;
    const std::vector<double> of_one = heights_inside(one, middle);
    const std::vector<double> of_other = heights_inside(other, middle);
    for (std::size_t m = 0; m + 1 < of_one.size(); m += 2) {
      for (std::size_t n = 0; n + 1 < of_other.size(); n += 2) {
        const double from = std::max(of_one[m], of_other[n]);
        const double to = std::min(of_one[m + 1], of_other[n + 1]);
        const double area_m2 = (x[i + 1] - x[i]) * (to - from);
        constexpr double kRounding_m2 = 1e-9;
        if (!(to > from) || !(area_m2 > kRounding_m2)) continue;
        shared.area_m2 += area_m2;
        const Box3 strip{{x[i], 0.0, from}, {x[i + 1], 0.0, to}};
        extent = extent ? united(*extent, strip) : strip;
      }
    }
  }
  if (extent) shared.longest_m = std::max(extent->size().x, extent->size().z);
  return shared;
}

/// The area that two boards or slabs both take up; 0 where they meet, or overlap by no more than a joint.
double overlap_m2(const Part& a, const Part& b) {
  if (!is_board_or_slab(a) || !is_board_or_slab(b)) return 0.0;
  const auto common = intersection(*a.bounds, *b.bounds);
  if (!common || common->size().y <= tolerance::kMembrane_m) return 0.0;
  const Polygon one = face_of(a);
  const Polygon other = face_of(b);
  if (one.empty() || other.empty()) return 0.0;
  const Shared shared = shared_face(one, other);
  return shared.width_m() > kTongue_m ? shared.area_m2 : 0.0;
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

/// A single fastener that lies within the opening and touches none of its edges: there is nothing that it could hold
/// to. What holds a window or door touches the reveal.
bool hangs_in(const Part& part, const Opening& opening) {
  constexpr double kTouching_m = 0.01;
  if (part.kind != PartKind::fastener || part.count != 1 || !part.bounds) return false;
  const Box3& box = *part.bounds;
  const bool stands_on_sill = opening.z_min_m > tolerance::kSameLine_m && box.min.z < opening.z_min_m + kTouching_m;
  return box.min.x > opening.x_min_m + kTouching_m && box.max.x < opening.x_max_m - kTouching_m &&
         box.min.z > opening.z_min_m - kTouching_m && box.max.z < opening.z_max_m - kTouching_m && !stands_on_sill;
}

}  // namespace

std::vector<std::string> parts_out_of_place(const Panel& panel) {
  std::vector<std::string> found;
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    const Part& part = panel.parts[i];
    for (const Opening& opening : panel.openings) {
      if (hangs_in(part, opening)) {
        found.push_back(named(part) + " hangs in opening '" + opening.name + "', where there is nothing to fix it to");
      }
    }
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
      } else if (const double area_m2 = overlap_m2(part, other); area_m2 > 0.0) {
        found.push_back(named(part) + " and " + named(other) + " take up the same room over " + fixed_text(area_m2, 2) +
                        " m²");
      }
    }
  }
  return found;
}

}  // namespace panel_dossier
