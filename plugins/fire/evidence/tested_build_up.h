// The build-up that a fire test was made on, against that of a panel.
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
  double thickness_mm = 0.0;  ///< > 0
};

/// Reads `Gypsum plasterboard type F 15; Stone wool slab 220`: from inside to outside, each a material's name and its
/// thickness in mm. None for anything else.
std::optional<std::vector<TestedLayer>> parse_build_up(std::string_view text);

struct BuildUpComparison {
  std::vector<std::size_t> covered;      ///< ascending indices into Panel::layers of those that the test had too
  std::vector<std::string> open_points;  ///< empty: the panel has every layer tested
};

/// Compares Panel_FireEvidence.BuildUp with the panel's layers and adds a table. A tested layer is covered by one of
/// the same material and at least its thickness, in the same order; the panel may have further layers. An open point
/// for each tested layer that the panel lacks, and for a text that is absent or cannot be read.
BuildUpComparison compare_build_up(FindingBuilder& builder, const Panel& panel, const Project& project);

}  // namespace panel_dossier::fire
