// The build-up that a fire test was made on against the panel's own layers, one by one.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"

namespace panel_dossier::fire {

struct TestedLayer {
  std::string material;
  double thickness_mm = 0.0;                ///< > 0
  std::optional<double> density_kg_per_m3;  ///< > 0; none when not given
};

/// Reads `Gypsum plasterboard type F 15 (800 kg/m3); Stone wool slab 220 (40 kg/m3)` (Panel_FireEvidence.BuildUp): from
/// inside to outside, each a material's name, its thickness in mm and, in brackets, its density; `air 38` is a void.
/// None for anything else.
std::optional<std::vector<TestedLayer>> parse_tested_layers(std::string_view text);

struct LayerComparison {
  std::vector<std::size_t> covered;      ///< ascending indices into Panel::layers of those that the test had too
  std::vector<std::string> open_points;  ///< empty: the test covers the panel's layers
};

/// A tested layer is covered by one of the same material, at least its thickness and no less dense than kDensityScatter
/// allows, in the same order (EN 1364-1:2015 13, direct field of application, from memory: components may be thicker).
/// Nothing may stand between the layers tested. Layers that the panel has beyond them, air among them, are covered
/// where Panel_FireEvidence.AddedLayers says so: the least reaction to fire class of added layers that the report
/// covers, or `none`. Membranes that are non-substantial (EN 13501-1:2018 3.1: thinner than 1 mm and lighter than
/// 1 kg/m², from memory) are left out. `framing` is the layer of the studs, which may be a void.
LayerComparison compare_layers(FindingBuilder& builder, const Panel& panel, const Project& project,
                               std::optional<std::size_t> framing);
/// What it reads.
std::vector<CheckInput> tested_layers_inputs();

/// A panel's material counts as dense as the one tested down to this share of its density: scatter of production and
/// rounding of data sheets (common practice).
inline constexpr double kDensityScatter = 0.95;

}  // namespace panel_dossier::fire
