// Everything that a build starts from, read and weighed: the export and the project settings.
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/model/settings.h"
#include "core/intake/claims/table_confirmations.h"
#include "core/intake/export_reader.h"
#include "core/intake/settings/settings_schema.h"
#include "core/intake/settings/settings_table.h"

namespace panel_dossier {

struct InputOptions {
  std::filesystem::path export_file;
  std::filesystem::path settings_file;  ///< empty: `settings.json` beside the export, when there is one
  std::filesystem::path schema_dir;
  std::vector<std::pair<std::string, std::filesystem::path>> plugin_folders;  ///< id and data folder of each plugin
  /// Is shown the project as the export alone gives it, before library, records and claims change what counts.
  std::function<void(const Project&)> as_exported = {};
  std::string today;  ///< YYYY-MM-DD: nothing is confirmed on a later day; the machine's day when empty
};

struct Inputs {
  IntakeResult intake;
  Settings settings;
  std::string export_bytes;
  std::optional<std::string> settings_bytes;           ///< none when there is no settings file
  std::vector<SettingsFile> settings_files;            ///< of the settings, libraries, records; confirmations.csv
  std::vector<std::string> confirmed_values;           ///< of the settings, one text each, where the value was found
  std::vector<TableConfirmation> table_confirmations;  ///< of confirmations.csv beside the export
  std::string property_list;                           ///< what was read of the export, put together from all lists
  /// What people call the properties, under `Pset.Property`; where a panel has one too, what it is called there.
  std::map<std::string, std::string, std::less<>> property_titles;
  Diagnostics diagnostics;  ///< of the settings, then of the export and of what both claim

  bool refused() const { return !intake.project || has_errors(diagnostics); }
};

/// What the settings may hold: the program's own groups and those of the plugins. Throws as `read_inputs`.
SettingsSchema settings_schema(const InputOptions& options);

/// The lists of the properties that are read: the program's own first, then those of the plugins that have one.
std::vector<std::filesystem::path> property_lists(const InputOptions& options);

/// What the settings may hold and which properties are known the program's schemas say, and settings.schema.json and
/// properties.csv in the folder of each plugin, where it has them. Throws std::runtime_error when a named file cannot
/// be read or a schema is faulty.
Inputs read_inputs(const InputOptions& options);

}  // namespace panel_dossier
