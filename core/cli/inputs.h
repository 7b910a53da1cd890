// What the commands read: which plugins, the export and the project settings.
#pragma once

#include <CLI/App.hpp>
#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/model/settings.h"
#include "core/intake/export_reader.h"
#include "core/intake/settings/settings_schema.h"
#include "core/intake/settings/settings_table.h"
#include "core/pipeline/plugin_host.h"

namespace panel_dossier {

/// Which plugins a command loads.
struct PluginOptions {
  std::vector<std::filesystem::path> further;  ///< folders beside the program's own
  bool without_own = false;

  /// The program's own folder first.
  std::vector<std::filesystem::path> folders() const;
  /// The folders for a message: `'a' and 'b'`.
  std::string folders_in_words() const;
};

/// Adds `--plugins` and `--without-own-plugins`.
void add_plugin_options(CLI::App& command, PluginOptions& options);

/// Loads the plugins of the folders. Refused too is one whose group of settings the program has itself. Throws
/// std::runtime_error when a folder or the program's own schema of the settings cannot be read.
PluginFolder load_plugins(const PluginOptions& options, const std::filesystem::path& schema_dir);

/// Id and data folder of each plugin: where the reading of inputs finds its settings schema and its list of properties.
std::vector<std::pair<std::string, std::filesystem::path>> data_folders(const std::vector<LoadedPlugin>& plugins);

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
  std::string property_list;                  ///< what was read of the export, put together from all lists
  Diagnostics diagnostics;                    ///< of the settings, then of the export

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

/// Prints one line a diagnostic to standard error, and how many there were of each severity.
void print_diagnostics(const Diagnostics& diagnostics);

}  // namespace panel_dossier
