#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/check_page.h"
#include "core/cli/commands.h"
#include "core/cli/inputs.h"
#include "core/cli/plugins/plugin_options.h"
#include "core/cli/plugins/plugin_trial.h"
#include "core/cli/terminal/exit_status.h"
#include "core/cli/terminal/locations.h"
#include "core/cli/terminal/refusal.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/graph/property_list.h"
#include "core/pipeline/outputs.h"
#include "core/pipeline/plugin_host.h"
#include "core/trace/sha256.h"

namespace panel_dossier {

namespace {

struct ListOptions {
  PluginOptions plugins;
  InputOptions input;
  TrialRequest trial;
  std::string check;
  std::string pages_of;
  bool outputs = false;
  bool settings = false;
  bool properties = false;
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
  std::cout << outputs_page(outputs);
}

/// False when a list is faulty.
bool print_properties(const InputOptions& input) {
  Reporter report("the lists of properties");
  std::cout << property_list_text(read_property_lists(load_property_lists(property_lists(input), report), report));
  const Diagnostics faults = report.take();
  print_diagnostics(faults);
  return !has_errors(faults);
}

int list_plugins(const ListOptions& options) {
  const PluginFolder loaded = load_plugins(options.plugins, options.input.schema_dir);
  InputOptions input = options.input;
  input.plugin_folders = data_folders(loaded.plugins);
  for (const std::string& refused : loaded.refused) std::cerr << "refused: " << refused << '\n';
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
  } else if (options.properties) {
    if (!print_properties(input)) return exit_status::kIncomplete;
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
  command->add_flag("--properties", options->properties, "Print the list of properties that these plugins read");
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
      std::cerr << "panel-dossier: error: " << error.what() << '\n';
      status = exit_status::kIncomplete;
    }
  });
}

}  // namespace panel_dossier
