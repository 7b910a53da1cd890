// What the companion page knows of the project and its panels.
#pragma once

#include <cstddef>
#include <string>
#include <unordered_map>
#include <vector>

#include "core/dossier/handover/handover.h"

namespace panel_dossier {

/// Pictures of a page, those that are equal once.
struct CompanionPictures {
  std::vector<std::string> svg;
  /// Of each panel, in the project's order, an index into `svg`; -1 where it has none on the page.
  std::vector<int> of_panel;
  std::size_t left_out = 0;  ///< panels whose picture would make the page too large
};

/// The elevations of the panels, as many as fit into so many bytes, those of the first panels first.
CompanionPictures companion_pictures(const Project& project, std::size_t most_bytes);

/// JSON as core/dossier/handover/data/companion.js reads it: `project`, `texts`, and `panels`, whose lists hold indexes
/// into `texts`. Texts are as `visible_text` shows them.
std::string companion_json(const HandoverContent& content, const CompanionPictures& pictures);

}  // namespace panel_dossier
