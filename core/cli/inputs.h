// What the commands have in common: which plugins they load, and how they print what is wrong with the inputs.
#pragma once

#include <CLI/App.hpp>
#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "core/intake/document/diagnostics.h"
#include "core/intake/inputs.h"
#include "core/pipeline/plugin_host.h"
#include "core/pipeline/worker/remote_plugin.h"

namespace panel_dossier {

/// Which plugins a command loads, and where their code runs.
struct PluginOptions {
  std::vector<std::filesystem::path> further;  ///< folders beside the program's own
  bool without_own = false;
  bool in_process = false;  ///< in this process instead of workers
  WorkerLimits limits;

  /// The program's own folder first.
  std::vector<std::filesystem::path> folders() const;
  /// The folders for a message: `'a' and 'b'`.
  std::string folders_in_words() const;
};

/// Adds `--plugins`, `--without-own-plugins`, `--in-process`, `--time-limit` and `--memory-limit`.
void add_plugin_options(CLI::App& command, PluginOptions& options);

/// Loads the plugins of the folders. Refused too is one whose group of settings the program has itself, or that
/// writes results back into properties that the standard does not have. Throws std::runtime_error when a folder, the
/// program's own schema of the settings or its table of the standard's properties cannot be read.
PluginFolder load_plugins(const PluginOptions& options, const std::filesystem::path& schema_dir);

/// Id and data folder of each plugin: where the reading of inputs finds its settings schema and its list of properties.
std::vector<std::pair<std::string, std::filesystem::path>> data_folders(const std::vector<LoadedPlugin>& plugins);

/// The plugins of a command and what it reads with them.
struct ReadInputs {
  PluginFolder plugins;
  InputOptions options;  ///< with the folders of the plugins
  Inputs inputs;
};

/// Loads the plugins, names the refused ones on standard error, and reads the inputs. Throws as `load_plugins` and
/// `read_inputs`.
ReadInputs read_with_plugins(const PluginOptions& plugins, InputOptions options);

/// Prints one line a diagnostic to standard error, of warnings in the same words the first three alone, and how many
/// there were of each severity.
void print_diagnostics(const Diagnostics& diagnostics);

}  // namespace panel_dossier
