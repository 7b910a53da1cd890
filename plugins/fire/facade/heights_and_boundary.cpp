#include "plugins/fire/facade/heights_and_boundary.h"

namespace panel_dossier::fire {

std::optional<Sourced<double>> top_storey_height_m(const Project& project, const Settings& settings) {
  if (auto stated = settings.number("building.top_storey_height_m")) return stated;
  const auto ground_m = settings.number("building.ground_level_m");
  std::optional<Sourced<double>> highest_m;
  for (const Storey& storey : project.storeys) {
    if (!storey.elevation_m) return std::nullopt;
    if (!highest_m || storey.elevation_m->value > highest_m->value) highest_m = storey.elevation_m;
  }
  if (!ground_m || !highest_m) return std::nullopt;
  return Sourced<double>{highest_m->value - ground_m->value, highest_m->origin};
}

std::optional<Sourced<double>> boundary_distance_m(const Panel& panel, const Settings& settings) {
  if (auto own = panel.properties.number("Panel_FireRequirement", "BoundaryDistance")) return own;
  return settings.number("building.boundary_distance_m");
}

std::optional<PanelTop> panel_top(const Panel& panel, const Project& project, const Settings& settings) {
  const auto ground_m = settings.number("building.ground_level_m");
  if (!ground_m || !panel.storey) return std::nullopt;
  const auto& floor_m = project.storeys[*panel.storey].elevation_m;
  if (!floor_m) return std::nullopt;
  return PanelTop{*floor_m, *ground_m, panel.height_m.value};
}

}  // namespace panel_dossier::fire
