// The measured volumes and masses of a panel: one rule for mass, carbon and loads, so that they never disagree.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/model/panel.h"
#include "core/api/model/project.h"

namespace panel_dossier {

/// One part, or one layer of a panel without parts, as measured.
struct TakeOffItem {
  std::string name;
  std::optional<std::size_t> part;      ///< index into Panel::parts
  std::optional<std::size_t> layer;     ///< index into Panel::layers, when no part stands for it
  std::optional<std::size_t> opening;   ///< index into Panel::openings: a factory-fitted window or door
  std::optional<std::size_t> material;  ///< index into Project::materials
  double volume_m3 = 0.0;               ///< net; 0 for a filling and for a part known by its weight alone
  std::optional<double> mass_kg;        ///< in whole milligrams; none when the material has no density
  /// The weight quantity or Panel_Filling.Mass that stands for ρ·V, unrounded; none when the mass is ρ·V.
  std::optional<Sourced<double>> declared_mass_kg;
  std::optional<Vec3> centroid_m;  ///< in the panel's frame; none without geometry
};

struct TakeOff {
  std::vector<TakeOffItem> items;
  std::vector<std::string> missing;  ///< what could not be measured and which property would mend it

  /// Sum of all masses in kg, exact to the milligram; none when anything is missing.
  std::optional<double> mass_kg() const;
  /// Mass-weighted centre in the panel's frame; none when anything is missing or an item has no position.
  std::optional<Vec3> centre_of_gravity_m() const;
};

/// Measures every part and every factory-fitted window and door (`Panel_Filling.FactoryFitted`, `Panel_Filling.Mass`).
/// A panel without parts is measured by its layers over the net area; such items have no position, for where framing
/// lies inside a layer is not known. Mass is ρ·V; a part with a positive `Qto_….NetWeight`, else `Qto_….GrossWeight`
/// (fasteners: `Panel_FastenerQuantities`, of all `Part::count` pieces together) uses that instead.
/// Each item's mass is rounded to the milligram once, here; totals are sums of those (see exact_sum.h), so that a table
/// by part, by material or by panel adds up to the same digit. A shape drawn once for `Part::count` pieces counts that
/// often; quantity sets are of all pieces together already. Layers of `layers_without_parts` are noted as missing.
TakeOff take_off(const Panel& panel, const Project& project);

/// Ascending indices into `panel.layers` of the layers whose material no part stands for, though the panel has parts:
/// their mass is not known. The parts of the layer's material must reach through at least half of the layer together;
/// one of that material without a box may lie anywhere and so counts for it. A layer without material, such as air,
/// needs no part; a layer that is all framing is named for one material of its parts.
std::vector<std::size_t> layers_without_parts(const Panel& panel);
/// What is missing for one of them, in words.
std::string missing_part_of(const Layer& layer);

}  // namespace panel_dossier
