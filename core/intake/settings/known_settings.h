// Settings keys that nobody reads and words that nobody knows: nearly always a slip of the pen.
#pragma once

#include <filesystem>
#include <string>

#include "core/api/model/settings.h"
#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

/// An error for every word that is not in the list its key allows, and a warning for every key that `schema_file`
/// (schemas/settings.schema.json) does not describe; a group of it that allows additional properties takes any key.
/// Throws std::runtime_error naming the schema file when it cannot be read.
Diagnostics unknown_settings(const Settings& settings, const std::filesystem::path& schema_file,
                             const std::string& display_name);

}  // namespace panel_dossier
