// What the settings say of the building, held against the panels and storeys of the export.
#pragma once

#include <string>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/intake/claims/confirmations.h"
#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

/// Withholds a size of the group `building` that the export contradicts, unless it is confirmed, with a warning that
/// names both sources: ground and height of the building against the panels, the top storey's height against the
/// storeys, envelope against the panels' area, volume against the envelope. The plan is for the wind to compare, block
/// by block.
Diagnostics withhold_contradicted(Settings& settings, const Project& project, const std::string& settings_file,
                                  Confirmations& confirmations);

}  // namespace panel_dossier
