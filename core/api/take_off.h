// The measured volumes and masses of a panel: one rule for mass, carbon and loads, so that they never disagree.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/panel.h"
#include "core/api/project.h"

namespace panel_dossier {

/// One part, or one layer of a panel without parts, as measured.
struct TakeOffItem {
  std::string name;
  std::optional<std::size_t> part;      ///< index into Panel::parts
  std::optional<std::size_t> layer;     ///< index into Panel::layers, when no part stands for it
  std::optional<std::size_t> opening;   ///< index into Panel::openings: a factory-fitted window or door
  std::optional<std::size_t> material;  ///< index into Project::materials
  double volume_m3 = 0.0;               ///< net
  std::optional<double> mass_kg;        ///< none when the material has no density
  std::optional<Vec3> centroid_m;       ///< in the panel's frame; none without geometry
};

struct TakeOff {
  std::vector<TakeOffItem> items;
  std::vector<std::string> missing;  ///< what could not be measured and which property would mend it

  /// Sum of all masses; none when anything is missing.
  std::optional<double> mass_kg() const;
  /// Mass-weighted centre in the panel's frame; none when anything is missing or an item has no position.
  std::optional<Vec3> centre_of_gravity_m() const;
};

/// Measures every part and every factory-fitted window and door (`Panel_Filling.FactoryFitted`, `Panel_Filling.Mass`).
/// A panel without parts is measured by its layers over the net area. Mass is ρ·V; a part with a
/// `Qto_…BaseQuantities.GrossWeight` or `NetWeight` (fasteners) uses that instead.
TakeOff take_off(const Panel& panel, const Project& project);

}  // namespace panel_dossier
