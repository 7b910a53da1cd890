#include "plugins/thermal/junctions/slab_claims.h"

#include <cmath>
#include <string_view>

#include "core/api/support/words.h"

namespace panel_dossier::thermal {

namespace {

// A slab is modelled with or without its screed and insulation: what differs by less is no contradiction (common
// practice).
constexpr double kWithOrWithoutFinish_m = 0.1;
// Slabs stop short of the outer face by a setback and a gap, and panels stand on upstands or hang before their edges.
constexpr double kReachesThePanel_m = 0.5;

Box3 reach_of(const Panel& panel) {
  const Box3 box = panel.world_bounds();
  const Vec3 reach{kReachesThePanel_m, kReachesThePanel_m, kReachesThePanel_m};
  return {box.min - reach, box.max + reach};
}

/// The setting that tells the thickness of such a neighbour; empty when none does.
std::string_view setting_of(NeighbourKind kind) {
  if (kind == NeighbourKind::slab) return "thermal.details.slab_thickness_m";
  return kind == NeighbourKind::roof ? "thermal.details.roof_slab_thickness_m" : "";
}

}  // namespace

std::vector<std::string> slab_contradictions(const conduction::Detail& detail, const Panel& panel,
                                             const Project& project) {
  std::vector<std::string> found;
  const Box3 reach = reach_of(panel);
  for (const panel_dossier::Neighbour& neighbour : project.neighbours) {
    const std::string_view key = setting_of(neighbour.kind);
    if (key.empty() || !neighbour.thickness_m || !neighbour.bounds || !intersection(reach, *neighbour.bounds)) continue;
    for (const Input& input : detail.inputs) {
      const double* stated = std::get_if<double>(&input.value);
      if (input.origin.key != key || stated == nullptr) continue;
      if (std::abs(*stated - neighbour.thickness_m->value) <= kWithOrWithoutFinish_m) continue;
      found.push_back("setting '" + std::string(key) + "' is " + fixed_text(*stated, 3) + " m, but " +
                      std::string(to_string(neighbour.kind)) + " '" + neighbour.name +
                      "' of the export beside the panel is " + fixed_text(neighbour.thickness_m->value, 3) +
                      " m thick; correct one of them");
      return found;
    }
  }
  return found;
}

}  // namespace panel_dossier::thermal
