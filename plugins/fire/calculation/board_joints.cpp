#include "plugins/fire/calculation/board_joints.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>
#include <vector>

#include "core/api/support/tolerances.h"
#include "core/api/support/units.h"
#include "plugins/fire/stretch.h"
#include "plugins/fire/tolerances.h"

namespace panel_dossier::fire {

namespace {

/// A joint as seen on the face: `across` is the gap from edge to edge, `along` the length of the joint.
struct Joint {
  bool vertical = true;
  double gap_m = 0.0;  ///< below 0 where the boxes overlap
  Stretch across;
  Stretch along;
};

Stretch x_of(const Box3& box) {
  return {box.min.x, box.max.x};
}
Stretch z_of(const Box3& box) {
  return {box.min.z, box.max.z};
}

std::optional<Joint> joint_between(const Box3& a, const Box3& b, bool vertical) {
  const Stretch a_across = vertical ? x_of(a) : z_of(a);
  const Stretch b_across = vertical ? x_of(b) : z_of(b);
  const Stretch a_along = vertical ? z_of(a) : x_of(a);
  const Stretch b_along = vertical ? z_of(b) : x_of(b);
  const double gap_m = b_across.from - a_across.to;
  const Stretch along{std::max(a_along.from, b_along.from), std::min(a_along.to, b_along.to)};
  if (std::abs(gap_m) > kSheetsMeet_m || along.length_m() <= tolerance::kSameLine_m) return std::nullopt;
  return Joint{vertical, gap_m, {std::min(a_across.to, b_across.from), std::max(a_across.to, b_across.from)}, along};
}

void add_if_over(std::vector<Stretch>& covers, const Joint& joint, const Stretch& x, const Stretch& z) {
  const Stretch& across = joint.vertical ? x : z;
  const Stretch& along = joint.vertical ? z : x;
  const bool over = across.from <= joint.across.from && across.to >= joint.across.to;
  if (over) covers.push_back({std::max(along.from, joint.along.from), std::min(along.to, joint.along.to)});
}

/// A strip of board or an opening lies between the two edges, which then do not meet.
bool is_filled(const Panel& panel, const std::vector<const Part*>& sheets, const Joint& joint) {
  if (joint.gap_m <= 0.0) return false;
  std::vector<Stretch> covers;
  for (const Part* sheet : sheets) add_if_over(covers, joint, x_of(*sheet->bounds), z_of(*sheet->bounds));
  for (const Opening& opening : panel.openings) {
    add_if_over(covers, joint, {opening.x_min_m, opening.x_max_m}, {opening.z_min_m, opening.z_max_m});
  }
  return bare_length_m(joint.along, std::move(covers)) <= tolerance::kSameLine_m;
}

bool touches(const Box3& box, const Layer& layer) {
  return std::abs(box.max.y - layer.y_inside_m) <= tolerance::kMembrane_m ||
         std::abs(box.min.y - layer.y_outside_m) <= tolerance::kMembrane_m;
}

bool is_backed(const Panel& panel, const Layer& layer, const Joint& joint) {
  std::vector<Stretch> covers;
  for (const Part& part : panel.parts) {
    if (is_framing(part.kind) && part.bounds && touches(*part.bounds, layer)) {
      add_if_over(covers, joint, x_of(*part.bounds), z_of(*part.bounds));
    }
  }
  for (const Opening& opening : panel.openings) {
    add_if_over(covers, joint, {opening.x_min_m, opening.x_max_m}, {opening.z_min_m, opening.z_max_m});
  }
  return bare_length_m(joint.along, std::move(covers)) <= tolerance::kSameLine_m;
}

std::string place_of(const Joint& joint) {
  const auto at_mm = std::lround(units::millimetres_from_metres((joint.across.from + joint.across.to) / 2.0));
  return (joint.vertical ? "upright joint " : "level joint ") + std::to_string(at_mm) +
         (joint.vertical ? " mm from the left" : " mm above the foot");
}

/// By place and name, so that what is said of them does not hang on the export's order.
std::vector<const Part*> parts_of_kind(const Panel& panel, const Layer& layer, PartKind kind) {
  std::vector<const Part*> found;
  for (const std::size_t index : parts_in_layer(panel, layer)) {
    if (panel.parts[index].kind == kind) found.push_back(&panel.parts[index]);
  }
  std::sort(found.begin(), found.end(), [](const Part* a, const Part* b) {
    return std::tie(a->bounds->min.x, a->bounds->min.z, a->name) <
           std::tie(b->bounds->min.x, b->bounds->min.z, b->name);
  });
  return found;
}

}  // namespace

std::string BoardJoints::text() const {
  if (!known) return "not known: no sheets with a shape in this layer";
  if (joints == 0) return "none";
  return std::to_string(joints) + (unbacked.empty() ? ", all on framing" : "; no framing behind the " + unbacked);
}

BoardJoints joints_of(const Panel& panel, const Layer& layer) {
  BoardJoints result;
  const auto sheets = parts_of_kind(panel, layer, PartKind::sheet);
  result.known = !sheets.empty();
  for (const Part* a : sheets) {
    for (const Part* b : sheets) {
      for (const bool vertical : {true, false}) {
        const auto joint = a == b ? std::nullopt : joint_between(*a->bounds, *b->bounds, vertical);
        if (!joint || is_filled(panel, sheets, *joint)) continue;
        ++result.joints;
        result.widest_gap_mm = std::max(result.widest_gap_mm, units::millimetres_from_metres(joint->gap_m));
        if (result.unbacked.empty() && !is_backed(panel, layer, *joint)) result.unbacked = place_of(*joint);
      }
    }
  }
  return result;
}

BoardFixings fixings_of(const Panel& panel, const Layer& layer) {
  BoardFixings result;
  const auto fasteners = parts_of_kind(panel, layer, PartKind::fastener);
  bool lengths = true;
  bool spacings = true;
  for (const Part* part : fasteners) {
    const auto length = part->properties.number("Panel_Fastener", "Length");
    const auto spacing = part->properties.number("Panel_Fastener", "Spacing");
    lengths = lengths && length && length->value > 0.0;
    spacings = spacings && spacing && spacing->value > 0.0;
    if (lengths && (!result.shortest_m || length->value < result.shortest_m->value)) result.shortest_m = length;
    if (spacings && (!result.spacing_m || spacing->value > result.spacing_m->value)) result.spacing_m = spacing;
  }
  if (!lengths) result.shortest_m.reset();
  if (!spacings) result.spacing_m.reset();
  return result;
}

}  // namespace panel_dossier::fire
