#include "core/cli/plugins/plugin_trial.h"

#include <algorithm>
#include <exception>
#include <iostream>
#include <optional>
#include <stdexcept>
#include <utility>

#include "core/api/testing/plugin_trial.h"
#include "core/cli/terminal/exit_status.h"
#include "core/pipeline/plugin_host.h"
#include "core/pipeline/run.h"

namespace panel_dossier {

namespace {

/// None when the plugin is refused, which is then told.
std::optional<LoadedPlugin> loaded_or_told(const std::filesystem::path& file) {
  try {
    return load_plugin(std::filesystem::absolute(file));
  } catch (const std::runtime_error& error) {
    std::cerr << "refused: plugin '" << file.string() << "' " << error.what() << '\n';
    return std::nullopt;
  }
}

/// Those of the program's plugins, whose settings the project holds too, and of the tried one in place of its namesake.
std::vector<std::pair<std::string, std::filesystem::path>> folders_with(const LoadedPlugin& tried,
                                                                        const PluginOptions& plugins) {
  auto folders = data_folders(load_plugins(plugins.folders()).plugins);
  std::erase_if(folders, [&](const auto& entry) { return entry.first == tried.info.id; });
  folders.emplace_back(tried.info.id, tried.data_dir);
  return folders;
}

void print_report(const testing::TrialReport& report) {
  for (const std::string& fault : report.faults) std::cout << "fault: " << fault << '\n';
  std::cout << report.findings << " findings, " << report.formulas << " formulas computed, " << report.inputs
            << " properties and settings cited\n"
            << report.removals << " findings looked at without an input, " << report.spoilings
            << " with a spoilt one\n";
  if (report.removals == 0) {
    std::cout << "nothing passes by a property or setting, so none could be taken away; give the project what the "
                 "checks need\n";
  }
  std::cout << report.faults.size() << (report.faults.size() == 1 ? " fault\n" : " faults\n");
}

}  // namespace

void add_trial_options(CLI::App& command, CLI::Option& file, TrialRequest& trial, InputOptions& input) {
  CLI::Option* project = command.add_option("PROJECT", input.export_file, "ifcXML export to try a plugin on");
  project->needs(&file);
  file.needs(project);
  command
      .add_option("--settings", input.settings_file,
                  "Project settings to try a plugin with (default: settings.json beside the export)")
      ->needs(&file);
  command
      .add_option("--either-sign", trial.either_sign,
                  "Pset.Property or setting whose number may have either sign; may be given several times")
      ->allow_extra_args(false)
      ->needs(&file);
  command
      .add_option("--free-text", trial.free_text,
                  "Pset.Property or setting whose text may be any; may be given several times")
      ->allow_extra_args(false)
      ->needs(&file);
}

int try_one_plugin(const TrialRequest& trial, const PluginOptions& plugins, InputOptions input) {
  const std::optional<LoadedPlugin> loaded = loaded_or_told(trial.plugin);
  if (!loaded) return exit_status::kIncomplete;
  input.plugin_folders = folders_with(*loaded, plugins);
  const Inputs inputs = read_inputs(input);
  print_diagnostics(inputs.diagnostics);
  if (inputs.refused()) {
    std::cerr << "panel-dossier: error: the input is refused; nothing was tried\n";
    return exit_status::kInputRefused;
  }
  testing::TrialOptions options;
  options.either_sign = trial.either_sign;
  options.free_text = trial.free_text;
  testing::TrialReport report = testing::try_plugin(*loaded->plugin, *inputs.intake.project, inputs.settings, options);
  // A build as it would be made: it also asks for the rows of the tables that the plugin declares.
  NoProgress progress;
  const Results results = run_checks(*inputs.intake.project, inputs.settings, {*loaded}, 0, progress);
  report.faults.insert(report.faults.end(), results.failures.begin(), results.failures.end());
  print_report(report);
  return report.faults.empty() ? exit_status::kClean : exit_status::kVerdictFails;
}

}  // namespace panel_dossier
