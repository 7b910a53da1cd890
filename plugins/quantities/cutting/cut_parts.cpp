#include "plugins/quantities/cutting/cut_parts.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace panel_dossier::quantities {

namespace {

using Sizes = std::array<double, 3>;

bool is_cut(PartKind kind) {
  return is_framing(kind) || kind == PartKind::sheet || kind == PartKind::insulation || kind == PartKind::membrane ||
         kind == PartKind::cladding;
}

/// Direction of the longest edge: the blank of a rotated rectangle lies along it.
Vec2 longest_edge_direction(const Polygon& outline) {
  Vec2 direction{1.0, 0.0};
  double longest = 0.0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2& a = outline[i];
    const Vec2& b = outline[(i + 1) % outline.size()];
    const double edge = std::hypot(b.x - a.x, b.y - a.y);
    if (edge <= longest) continue;
    longest = edge;
    direction = {(b.x - a.x) / edge, (b.y - a.y) / edge};
  }
  return direction;
}

/// Extent of the outline along a direction.
double extent(const Polygon& outline, const Vec2& along) {
  double low = 0.0;
  double high = 0.0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const double at = outline[i].x * along.x + outline[i].y * along.y;
    low = i == 0 ? at : std::min(low, at);
    high = i == 0 ? at : std::max(high, at);
  }
  return high - low;
}

Sizes blank_sizes(const Extrusion& solid) {
  const Vec2 along = longest_edge_direction(solid.outline);
  return {extent(solid.outline, along), extent(solid.outline, {-along.y, along.x}), std::abs(solid.depth_m)};
}

std::optional<Sizes> sizes_of(const Part& part) {
  if (part.solid) return blank_sizes(*part.solid);
  if (!part.bounds) return std::nullopt;
  const Vec3 size = part.bounds->size();
  return Sizes{size.x, size.y, size.z};
}

bool fills_blank(const Part& part, const Sizes& sizes) {
  const double blank_m3 = sizes[0] * sizes[1] * sizes[2];
  // The net volume also lacks what openings cut from the solid.
  return (!part.solid || fills(part.solid->volume_m3(), blank_m3)) &&
         (!part.volume_m3 || fills(part.volume_m3->value, blank_m3));
}

/// Extent along the direction in which a member of this kind runs; none for kinds that run either way. Short blocking
/// may be shorter than its own depth, so the longest edge does not tell the axis.
std::optional<double> extent_along_axis(const Part& part) {
  if (!part.bounds) return std::nullopt;
  switch (part.kind) {
    case PartKind::stud:
    case PartKind::post: return part.bounds->size().z;
    case PartKind::rail:
    case PartKind::lintel:
    case PartKind::blocking: return part.bounds->size().x;
    default: return std::nullopt;
  }
}

/// The size nearest to `wanted`; the end when none is near.
Sizes::iterator find_size(Sizes& sizes, double wanted) {
  const auto nearer = [wanted](double a, double b) { return std::abs(a - wanted) < std::abs(b - wanted); };
  const auto nearest = std::min_element(sizes.begin(), sizes.end(), nearer);
  return std::abs(*nearest - wanted) <= metres(kSizeAgreement) ? nearest : sizes.end();
}

/// Length last: along the member's axis where that is square to the panel, else as stated, else the longest.
void arrange_member(Sizes& sizes, const Part& part) {
  for (const auto& length :
       {part.length_m ? std::optional(part.length_m->value) : std::nullopt, extent_along_axis(part)}) {
    const auto found = length ? find_size(sizes, *length) : sizes.end();
    if (found != sizes.end()) std::iter_swap(found, std::prev(sizes.end()));
  }
  std::sort(sizes.begin(), std::prev(sizes.end()));
}

/// Thickness first: through the panel, for a narrow strip of insulation is thicker than it is wide.
void arrange_sheet(Sizes& sizes, const Part& part) {
  const auto found = part.bounds ? find_size(sizes, part.bounds->size().y) : sizes.end();
  if (found != sizes.end()) std::iter_swap(found, sizes.begin());
  std::sort(std::next(sizes.begin()), sizes.end());
}

/// Thickness, width, length; false when the stated length is none of the sizes.
bool arrange(Sizes& sizes, const Part& part) {
  if (part.length_m && find_size(sizes, part.length_m->value) == sizes.end()) return false;
  std::sort(sizes.begin(), sizes.end());
  if (is_framing(part.kind)) {
    arrange_member(sizes, part);
  } else {
    arrange_sheet(sizes, part);
  }
  return true;
}

void add_part(const Part& part, std::size_t index, CutParts& result) {
  std::optional<Sizes> sizes = sizes_of(part);
  if (!sizes) {
    result.missing.push_back("part '" + part.name + "' has no shape, so its section is not known");
    return;
  }
  const bool rectangular = fills_blank(part, *sizes);
  if (!arrange(*sizes, part)) {
    result.missing.push_back("part '" + part.name + "' states a length that no edge of its shape has; mend either");
    return;
  }
  const CutPart cut{index, micrometres((*sizes)[0]), micrometres((*sizes)[1]), micrometres((*sizes)[2]), rectangular};
  if (std::min({cut.thickness, cut.width, cut.length}) <= 0) {
    result.missing.push_back("part '" + part.name + "' has a size of zero");
    return;
  }
  result.parts.push_back(cut);
}

}  // namespace

bool fills(double volume_m3, double whole_m3) {
  // The smallest hole or notch that a workshop cuts is well above.
  constexpr double kRoundedShare = 1.0e-5;
  constexpr double kRoundedVolume_m3 = 1.0e-9;
  return volume_m3 >= whole_m3 * (1.0 - kRoundedShare) - kRoundedVolume_m3;
}

Micrometres micrometres(double value_m) {
  return std::llround(value_m * 1.0e6);
}

CutParts cut_parts(const Panel& panel) {
  CutParts result;
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    if (is_cut(panel.parts[i].kind)) add_part(panel.parts[i], i, result);
  }
  return result;
}

double net_volume_m3(const CutPart& cut, const Part& part) {
  return part.volume_m3 ? part.volume_m3->value : metres(cut.thickness) * metres(cut.width) * metres(cut.length);
}

double net_measure(const CutPart& cut, const Part& part) {
  return is_framing(part.kind) ? metres(cut.length) : net_volume_m3(cut, part) / metres(cut.thickness);
}

}  // namespace panel_dossier::quantities
