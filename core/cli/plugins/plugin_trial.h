// `plugins --try`: one plugin tried on a project for what every plugin promises.
#pragma once

#include <CLI/App.hpp>
#include <filesystem>
#include <string>
#include <vector>

#include "core/cli/inputs.h"
#include "core/cli/plugins/plugin_options.h"

namespace panel_dossier {

struct TrialRequest {
  std::filesystem::path plugin;          ///< the shared object; empty when no trial is asked for
  std::vector<std::string> either_sign;  ///< properties and settings whose number may have either sign
  std::vector<std::string> free_text;    ///< properties and settings whose text may be any
};

/// Adds PROJECT, `--settings`, `--either-sign` and `--free-text`, each with `file` only, and demands PROJECT with it.
void add_trial_options(CLI::App& command, CLI::Option& file, TrialRequest& trial, InputOptions& input);

/// Reads the project as `build` with these plugins does, tries the plugin and prints each fault, then what was tried.
/// Gives the exit status: 0 without faults, 1 with faults, 2 when the input is refused, 3 when the plugin is. Throws
/// std::runtime_error when the input cannot be read.
int try_one_plugin(const TrialRequest& trial, const PluginOptions& plugins, InputOptions input);

}  // namespace panel_dossier
