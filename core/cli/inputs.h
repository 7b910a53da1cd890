// What build and check read: the export and the project settings.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/model/settings.h"
#include "core/intake/export_reader.h"
#include "core/intake/settings/settings_table.h"

namespace panel_dossier {

struct InputOptions {
  std::filesystem::path export_file;
  std::filesystem::path settings_file;  ///< empty: `settings.json` beside the export, when there is one
  std::filesystem::path schema_dir;
  std::vector<std::pair<std::string, std::filesystem::path>> plugin_folders;  ///< id and data folder of each plugin
};

struct Inputs {
  IntakeResult intake;
  Settings settings;
  std::string export_bytes;
  std::optional<std::string> settings_bytes;  ///< none when there is no settings file
  std::vector<SettingsFile> settings_files;   ///< the tables that the settings name
  Diagnostics diagnostics;                    ///< of the settings, then of the export

  bool refused() const { return !intake.project || has_errors(diagnostics); }
};

/// What the settings may hold and which properties are known the program's schemas say, and settings.schema.json and
/// properties.csv in the folder of each plugin, where it has them. Throws std::runtime_error when a named file cannot
/// be read or a schema is faulty.
Inputs read_inputs(const InputOptions& options);

/// Prints one line a diagnostic to standard error, and how many there were of each severity.
void print_diagnostics(const Diagnostics& diagnostics);

}  // namespace panel_dossier
