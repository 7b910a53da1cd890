#include "core/intake/panels/size_checks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "core/intake/document/text_format.h"

namespace panel_dossier {

namespace {

// Panels up to 4.5 m wide and above 20 m tall are made; 60 m is beyond any road transport.
constexpr double kLargest_m = 60.0;
constexpr double kSmallestFace_m = 0.05;
constexpr double kThinnest_m = 0.005;
constexpr double kThickest_m = 2.0;

struct Range {
  std::string_view name;
  double value_m;
  double at_least_m;
  double at_most_m;
};

bool may_lap(PartKind kind) {
  return kind == PartKind::sheet || kind == PartKind::membrane || kind == PartKind::cladding || kind == PartKind::other;
}

/// How far the box reaches beyond the panel, in m; the largest over all sides.
double overhang(const Box3& box, const Panel& panel, double lap_m) {
  const Vec3 size{panel.width_m.value, panel.thickness_m.value, panel.height_m.value};
  const double in_plane = std::max({-box.min.x, box.max.x - size.x, -box.min.z, box.max.z - size.z});
  const double through = std::max(-box.min.y, box.max.y - size.y);
  return std::max(in_plane - lap_m, through);
}

}  // namespace

bool differs(double a_m, double b_m) {
  return std::abs(a_m - b_m) > 0.001 + 0.001 * std::max(std::abs(a_m), std::abs(b_m));
}

bool check_panel_size(const ReadContext& context, const Element& entity, const Panel& panel) {
  const std::array ranges{
      Range{"wide", panel.width_m.value, kSmallestFace_m, kLargest_m},
      Range{"high", panel.height_m.value, kSmallestFace_m, kLargest_m},
      Range{"thick", panel.thickness_m.value, kThinnest_m, kThickest_m},
  };
  bool is_sound = true;
  for (const Range& range : ranges) {
    if (range.value_m >= range.at_least_m && range.value_m <= range.at_most_m) continue;
    is_sound = false;
    context.report.error(entity,
                         "the panel is " + metres(range.value_m) + " " + std::string(range.name) + ", not between " +
                             metres(range.at_least_m) + " and " + metres(range.at_most_m),
                         "check the length unit: millimetres and metres may be confused");
  }
  return is_sound;
}

void check_parts_inside(const ReadContext& context, const Panel& panel, const std::vector<PlacedPart>& placed) {
  for (const PlacedPart& item : placed) {
    const Part& part = item.part;
    // Brackets and lifting straps stick out by design.
    if (!part.bounds || part.kind == PartKind::fastener) continue;
    const double beyond_m = overhang(*part.bounds, panel, may_lap(part.kind) ? kLapAllowance_m : 0.0);
    if (beyond_m <= kOutsideTolerance_m) continue;
    context.report.error(item.entity, "the part reaches " + metres(beyond_m) + " out of its panel '" + panel.mark + "'",
                         "check the placement of the part and the length unit");
  }
}

}  // namespace panel_dossier
