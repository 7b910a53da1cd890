#include <CLI/App.hpp>
#include <CLI/CLI.hpp>
#include <algorithm>
#include <exception>
#include <filesystem>
#include <iostream>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/support/text_encoding.h"
#include "core/api/testing/plugin_trial.h"
#include "core/cli/commands.h"
#include "core/cli/inputs.h"
#include "core/cli/terminal/exit_status.h"
#include "core/cli/terminal/locations.h"
#include "core/intake/claims/table_confirmations.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/document/sha256.h"
#include "core/intake/graph/property_list.h"
#include "core/intake/ids/ids_writer.h"
#include "core/pipeline/outputs.h"
#include "core/pipeline/plugin_host.h"
#include "core/pipeline/run.h"

namespace panel_dossier {

namespace {

/// `plugins --try`: one plugin tried on a project for what every plugin promises.
struct TrialRequest {
  std::filesystem::path plugin;          ///< the shared object; empty when no trial is asked for
  std::vector<std::string> either_sign;  ///< properties and settings whose number may have either sign
  std::vector<std::string> free_text;    ///< properties and settings whose text may be any
};

/// None when the plugin is refused, which is then told.
std::optional<LoadedPlugin> loaded_or_told(const std::filesystem::path& file) {
  try {
    return load_plugin(std::filesystem::absolute(file));
  } catch (const std::runtime_error& error) {
    std::cerr << "refused: plugin '" << file.string() << "' " << visible_text(error.what()) << '\n';
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
  for (const std::string& fault : report.faults) std::cout << "fault: " << visible_text(fault) << '\n';
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

/// Adds PROJECT, `--settings`, `--either-sign` and `--free-text`, each with `file` only, and demands PROJECT with it.
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

/// Reads the project as `build` with these plugins does, tries the plugin and prints each fault, then what was tried.
/// Gives the exit status: 0 without faults, 1 with faults, 2 when the input is refused, 3 when the plugin is. Throws
/// std::runtime_error when the input cannot be read.
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

struct ListOptions {
  PluginOptions plugins;
  InputOptions input;
  TrialRequest trial;
  std::string check;
  std::string pages_of;
  bool outputs = false;
  bool settings = false;
  bool properties = false;
  bool ids = false;
  bool tables = false;
};

void print_plugin(const LoadedPlugin& loaded) {
  std::cout << loaded.info.id << ' ' << loaded.info.version << "  " << loaded.info.title << '\n'
            << "  file: " << loaded.file.string() << '\n'
            << "  sha256: " << to_hex(sha256_file(loaded.file)) << '\n';
  for (const std::string& standard : loaded.info.standards) std::cout << "  applies: " << standard << '\n';
  for (const CheckDeclaration& check : loaded.plugin->checks()) {
    std::cout << "  checks: " << check.id << "  " << check.title << '\n';
  }
  for (const OutputDeclaration& output : loaded.outputs) {
    std::cout << "  writes: " << output.file << "  " << output.title << '\n';
  }
}

/// Throws std::runtime_error when no loaded plugin declares it.
void print_check(const std::vector<LoadedPlugin>& plugins, const std::string& id) {
  for (const LoadedPlugin& loaded : plugins) {
    for (const CheckDeclaration& check : loaded.plugin->checks()) {
      if (check.id != id) continue;
      std::cout << check_page(check);
      return;
    }
  }
  throw std::runtime_error("no plugin declares a check '" + id + "'; panel-dossier plugins lists them");
}

void print_pages_of(const std::vector<LoadedPlugin>& plugins, const std::string& id) {
  for (const LoadedPlugin& loaded : plugins) {
    if (loaded.info.id != id) continue;
    std::cout << check_pages(loaded.plugin->checks());
    return;
  }
  throw std::runtime_error("no plugin '" + id + "' is loaded; panel-dossier plugins lists them");
}

void print_outputs(const std::vector<LoadedPlugin>& plugins) {
  std::vector<std::pair<std::string, OutputDeclaration>> outputs;
  for (const LoadedPlugin& loaded : plugins) {
    for (const OutputDeclaration& output : loaded.outputs) outputs.emplace_back(loaded.info.title, output);
  }
  std::vector<std::pair<std::string, WrittenBack>> written_back;
  for (const LoadedPlugin& loaded : plugins) {
    for (const WrittenBack& row : loaded.written_back) written_back.emplace_back(loaded.info.title, row);
  }
  std::cout << outputs_page(outputs) << written_back_page(written_back);
}

/// False when a list is faulty.
bool print_properties(const InputOptions& input, bool as_ids) {
  Reporter report("the lists of properties");
  const std::vector<PropertyRow> rows = read_property_lists(load_property_lists(property_lists(input), report), report);
  std::cout << (as_ids ? ids_text(rows) : property_list_text(rows));
  const Diagnostics faults = report.take();
  print_diagnostics(faults);
  return !has_errors(faults);
}

int list_plugins(const ListOptions& options) {
  const PluginFolder loaded = load_plugins(options.plugins, options.input.schema_dir);
  InputOptions input = options.input;
  input.plugin_folders = data_folders(loaded.plugins);
  for (const std::string& refused : loaded.refused) std::cerr << "refused: " << visible_text(refused) << '\n';
  if (loaded.plugins.empty()) {
    std::cerr << "no plugin was loaded from " << options.plugins.folders_in_words() << '\n';
  } else if (!options.check.empty()) {
    print_check(loaded.plugins, options.check);
  } else if (!options.pages_of.empty()) {
    print_pages_of(loaded.plugins, options.pages_of);
  } else if (options.outputs) {
    print_outputs(loaded.plugins);
  } else if (options.settings) {
    std::cout << settings_schema(input).text();
  } else if (options.tables) {
    std::cout << confirmation_form(table_rows(input.plugin_folders), {});
  } else if (options.properties || options.ids) {
    if (!print_properties(input, options.ids)) return exit_status::kIncomplete;
  } else {
    for (const LoadedPlugin& plugin : loaded.plugins) print_plugin(plugin);
  }
  return loaded.refused.empty() && !loaded.plugins.empty() ? exit_status::kClean : exit_status::kIncomplete;
}

}  // namespace

void add_plugins_command(CLI::App& app, int& status) {
  auto options = std::make_shared<ListOptions>();
  options->input.schema_dir = default_schema_dir();
  CLI::App* command = app.add_subcommand(
      "plugins", "List the plugins, their checks and tables; print what they declare; or try one on a project");
  add_plugin_options(*command, options->plugins);
  command->add_option("--schemas", options->input.schema_dir, "Folder of the schemas");
  command->add_option("--check", options->check, "Print the page of one check, for example sound.reduction_index");
  command->add_option("--pages", options->pages_of, "Print the pages of all checks of one plugin");
  command->add_flag("--outputs", options->outputs, "Print what tables build writes, with their columns");
  command->add_flag("--settings-schema", options->settings,
                    "Print the JSON Schema of the settings that these plugins read");
  command->add_flag("--tables", options->tables,
                    "Print every row of the data tables as a form for confirmations.csv, with the hash to confirm");
  command->add_flag("--properties", options->properties, "Print the list of properties that these plugins read");
  command->add_flag("--ids", options->ids, "Print the same as a file of requirements (IDS 1.0)");
  CLI::Option* file = command->add_option("--try", options->trial.plugin,
                                          "Try one plugin, a NAME.so, on PROJECT for what every plugin promises");
  add_trial_options(*command, *file, options->trial, options->input);
  command->callback([options, &status] {
    if (!options->trial.plugin.empty()) {
      status =
          refusing_unreadable_input([&] { return try_one_plugin(options->trial, options->plugins, options->input); });
      return;
    }
    try {
      status = list_plugins(*options);
    } catch (const std::runtime_error& error) {
      std::cerr << "panel-dossier: error: " << visible_text(error.what()) << '\n';
      status = exit_status::kIncomplete;
    }
  });
}

}  // namespace panel_dossier
