// What the settings say of the building, held against the panels, the storeys and the rest of the export.
#pragma once

#include <string>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/intake/claims/confirmations.h"
#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

/// Withholds a size of the group `building` that the export contradicts, unless it is confirmed, with a warning that
/// names both sources: ground against the panels and the terrain; height of the building against panels, walls, slabs
/// and roofs; width and depth against walls and slabs beside the panels, where all stand in one block (the panels alone
/// are for the wind to compare, block by block); the top storey's height against the storeys that have panels or walls;
/// envelope against the panels' area, volume against the envelope. That a building is stated larger than the export
/// shows only where the export has a roof (height) or slabs (width and depth): panels alone do not show a building.
Diagnostics withhold_contradicted(Settings& settings, const Project& project, const std::string& settings_file,
                                  Confirmations& confirmations);

}  // namespace panel_dossier
