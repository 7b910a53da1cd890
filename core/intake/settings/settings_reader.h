// The project settings file (JSON) -> Settings.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "core/api/model/settings.h"
#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

struct SettingsResult {
  Settings settings;
  Diagnostics diagnostics;
};

/// JSON that may hold comments (`// …`, `/* … */`) and a comma behind the last entry. Nested objects are joined by
/// dots, array elements numbered from 0. null is refused: leave the key out instead.
SettingsResult read_settings(const std::filesystem::path& file);
SettingsResult read_settings(std::string_view bytes, const std::string& display_name);

}  // namespace panel_dossier
