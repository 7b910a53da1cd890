// The slabs that details rest on, held against those that the export has beside the panel.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "plugins/thermal/junctions/conduction_detail.h"

namespace panel_dossier::thermal {

/// Where a slab or roof of the export that meets the panel has another thickness than the settings from which the
/// detail was drawn up: one text each, naming both sources. Empty when none does, or the export has none beside the
/// panel.
std::vector<std::string> slab_contradictions(const conduction::Detail& detail, const Panel& panel,
                                             const Project& project);

}  // namespace panel_dossier::thermal
