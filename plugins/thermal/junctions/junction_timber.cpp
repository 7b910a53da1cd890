#include "plugins/thermal/junctions/junction_timber.h"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "core/api/support/tolerances.h"
#include "plugins/thermal/junctions/conduction_detail_reader.h"
#include "plugins/thermal/transmittance/bridging.h"

namespace panel_dossier::thermal {

namespace {

/// Where members of one direction belong to a junction, on the panel's face.
struct Zone {
  bool vertical = false;  ///< studs and posts; else rails, lintels and blocking
  double x_min = 0.0;
  double x_max = 0.0;
  double z_min = 0.0;
  double z_max = 0.0;
};

bool runs(const Part& part, bool vertical) {
  if (part.kind == PartKind::stud || part.kind == PartKind::post) return vertical;
  const bool level = part.kind == PartKind::rail || part.kind == PartKind::lintel || part.kind == PartKind::blocking;
  return level && !vertical;
}

void add_opening_zones(const Panel& panel, const Opening& opening, std::vector<Zone>& zones) {
  conduction::DetailBuildUp timber;
  conduction::read_opening(panel, opening, timber);
  const auto reach = [](const std::optional<double>& depth) {
    return depth.value_or(0.0) + kFittingGap_m + tolerance::kModelling_m;
  };
  const double jamb = reach(timber.opening_jamb_m);
  zones.push_back(
      {false, opening.x_min_m, opening.x_max_m, opening.z_max_m, opening.z_max_m + reach(timber.opening_head_m)});
  zones.push_back(
      {false, opening.x_min_m, opening.x_max_m, opening.z_min_m - reach(timber.opening_sill_m), opening.z_min_m});
  zones.push_back({true, opening.x_min_m - jamb, opening.x_min_m, opening.z_min_m, opening.z_max_m});
  zones.push_back({true, opening.x_max_m, opening.x_max_m + jamb, opening.z_min_m, opening.z_max_m});
}

std::vector<Zone> zones_of(const Panel& panel, const Junctions& junctions, const conduction::DetailBuildUp& timber) {
  const double width = panel.width_m.value;
  const double height = panel.height_m.value;
  const double stud = timber.edge_stud_m.value_or(0.0) + tolerance::kModelling_m;
  std::vector<Zone> zones;
  for (const Junction& junction : junctions.lines) {
    if (!junction.kind && !junction.declared_psi) continue;
    switch (junction.edge) {
      case Edge::head:
        zones.push_back(
            {false, 0.0, width, height - timber.head_rail_m.value_or(0.0) - tolerance::kModelling_m, height});
        break;
      case Edge::sole:
        zones.push_back({false, 0.0, width, 0.0, timber.sole_rail_m.value_or(0.0) + tolerance::kModelling_m});
        break;
      case Edge::left: zones.push_back({true, 0.0, stud, 0.0, height}); break;
      case Edge::right: zones.push_back({true, width - stud, width, 0.0, height}); break;
      default: break;
    }
  }
  for (const Opening& opening : panel.openings) {
    if (!opening.filling_entity.empty()) add_opening_zones(panel, opening, zones);
  }
  return zones;
}

/// What is left of the box outside the zone: at most four boxes.
std::vector<Box3> cut(const Box3& box, const Zone& zone) {
  const double x_min = std::max(box.min.x, zone.x_min);
  const double x_max = std::min(box.max.x, zone.x_max);
  const double z_min = std::max(box.min.z, zone.z_min);
  const double z_max = std::min(box.max.z, zone.z_max);
  if (x_max - x_min <= tolerance::kModelling_m || z_max - z_min <= tolerance::kModelling_m) return {box};
  std::vector<Box3> rest;
  const auto keep = [&](double left, double low, double right, double high) {
    if (right - left <= tolerance::kModelling_m || high - low <= tolerance::kModelling_m) return;
    rest.push_back({{left, box.min.y, low}, {right, box.max.y, high}});
  };
  keep(box.min.x, box.min.z, x_min, box.max.z);
  keep(x_max, box.min.z, box.max.x, box.max.z);
  keep(x_min, box.min.z, x_max, z_min);
  keep(x_min, z_max, x_max, box.max.z);
  return rest;
}

}  // namespace

Panel without_junction_timber(const Panel& panel, const Junctions& junctions, const conduction::DetailBuildUp& timber) {
  const std::vector<Zone> zones = zones_of(panel, junctions, timber);
  Panel result = panel;
  result.parts.clear();
  for (const Part& part : panel.parts) {
    std::vector<Box3> boxes;
    if (part.bounds) boxes.push_back(*part.bounds);
    bool untouched = true;
    for (const Zone& zone : zones) {
      if (!runs(part, zone.vertical)) continue;
      std::vector<Box3> rest;
      for (const Box3& box : boxes) {
        const auto pieces = cut(box, zone);
        rest.insert(rest.end(), pieces.begin(), pieces.end());
        untouched = untouched && pieces.size() == 1 && pieces.front().size().x == box.size().x &&
                    pieces.front().size().z == box.size().z;
      }
      boxes = std::move(rest);
    }
    if (untouched) {
      result.parts.push_back(part);
      continue;
    }
    // A part that is wholly cut away stays as an empty box: the panel's framing is still a known one.
    const Box3& whole = *part.bounds;
    if (boxes.empty()) boxes.push_back({whole.min, {whole.min.x, whole.max.y, whole.min.z}});
    for (const Box3& box : boxes) {
      Part piece = part;
      piece.bounds = box;
      piece.solid.reset();
      result.parts.push_back(std::move(piece));
    }
  }
  return result;
}

}  // namespace panel_dossier::thermal
