#include "core/api/model/panel.h"

#include <algorithm>

namespace panel_dossier {

// Many members: compiled here once instead of in every source that holds one.
Panel::Panel() = default;
Panel::Panel(const Panel&) = default;
Panel::Panel(Panel&&) noexcept = default;
Panel& Panel::operator=(const Panel&) = default;
Panel& Panel::operator=(Panel&&) noexcept = default;
Panel::~Panel() = default;

Part::Part() = default;
Part::Part(const Part&) = default;
Part::Part(Part&&) noexcept = default;
Part& Part::operator=(const Part&) = default;
Part& Part::operator=(Part&&) noexcept = default;
Part::~Part() = default;

Opening::Opening() = default;
Opening::Opening(const Opening&) = default;
Opening::Opening(Opening&&) noexcept = default;
Opening& Opening::operator=(const Opening&) = default;
Opening& Opening::operator=(Opening&&) noexcept = default;
Opening::~Opening() = default;

double Panel::opening_area_m2() const {
  double sum = 0.0;
  for (const Opening& opening : openings) sum += opening.area_m2();
  return sum;
}

Box3 Panel::world_bounds() const {
  const Vec3 first = frame.to_parent(Vec3{});
  Box3 box{first, first};
  for (const double x : {0.0, width_m.value}) {
    for (const double y : {0.0, thickness_m.value}) {
      for (const double z : {0.0, height_m.value}) {
        const Vec3 corner = frame.to_parent(Vec3{x, y, z});
        box = united(box, {corner, corner});
      }
    }
  }
  return box;
}

std::vector<std::size_t> parts_in_layer(const Panel& panel, const Layer& layer) {
  std::vector<std::size_t> found;
  const double depth = layer.y_outside_m - layer.y_inside_m;
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    const auto& bounds = panel.parts[i].bounds;
    if (!bounds) continue;
    const double common = std::min(bounds->max.y, layer.y_outside_m) - std::max(bounds->min.y, layer.y_inside_m);
    if (common >= depth / 2.0) found.push_back(i);
  }
  return found;
}

std::string_view to_string(PartKind kind) {
  switch (kind) {
    case PartKind::stud: return "stud";
    case PartKind::post: return "post";
    case PartKind::rail: return "rail";
    case PartKind::lintel: return "lintel";
    case PartKind::blocking: return "blocking";
    case PartKind::batten: return "batten";
    case PartKind::sheet: return "sheet";
    case PartKind::membrane: return "membrane";
    case PartKind::insulation: return "insulation";
    case PartKind::cladding: return "cladding";
    case PartKind::fastener: return "fastener";
    case PartKind::other: break;
  }
  return "other";
}

bool is_framing(PartKind kind) {
  return kind == PartKind::stud || kind == PartKind::post || kind == PartKind::rail || kind == PartKind::lintel ||
         kind == PartKind::blocking || kind == PartKind::batten;
}

}  // namespace panel_dossier
