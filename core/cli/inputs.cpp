#include "core/cli/inputs.h"

#include <algorithm>
#include <iostream>
#include <iterator>
#include <stdexcept>

#include "core/api/support/words.h"
#include "core/cli/terminal/file_bytes.h"
#include "core/cli/terminal/locations.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/export_reader.h"
#include "core/intake/graph/property_list.h"
#include "core/intake/settings/settings_reader.h"
#include "core/intake/settings/settings_schema.h"

namespace panel_dossier {

namespace {

std::filesystem::path settings_file(const InputOptions& options) {
  if (!options.settings_file.empty()) return options.settings_file;
  std::filesystem::path beside = options.export_file.parent_path() / "settings.json";
  return std::filesystem::exists(beside) ? beside : std::filesystem::path{};
}

std::filesystem::path folder_of(const std::filesystem::path& file) {
  return std::filesystem::absolute(file).parent_path();
}

std::string counted(std::size_t count, const char* noun) {
  return std::to_string(count) + ' ' + noun + (count == 1 ? "" : "s");
}

}  // namespace

std::vector<std::filesystem::path> PluginOptions::folders() const {
  std::vector<std::filesystem::path> all;
  if (!without_own) all.push_back(default_plugin_dir());
  all.insert(all.end(), further.begin(), further.end());
  return all;
}

std::string PluginOptions::folders_in_words() const {
  std::vector<std::string> names;
  for (const std::filesystem::path& folder : folders()) names.push_back("'" + folder.string() + "'");
  return names.empty() ? "no folder" : joined(names, " and ");
}

void add_plugin_options(CLI::App& command, PluginOptions& options) {
  command.add_option("--plugins", options.further,
                     "Folder of further plugins, beside the program's own; may be given several times");
  command.add_flag("--without-own-plugins", options.without_own, "Load the plugins of --plugins alone");
}

PluginFolder load_plugins(const PluginOptions& options, const std::filesystem::path& schema_dir) {
  PluginFolder loaded = load_plugins(options.folders());
  SettingsSchema schema(schema_dir / "settings.schema.json");
  std::erase_if(loaded.plugins, [&](const LoadedPlugin& plugin) {
    const std::filesystem::path file = plugin.data_dir / "settings.schema.json";
    if (!std::filesystem::exists(file)) return false;
    try {
      schema.add_group(plugin.info.id, read_file(file));
      return false;
    } catch (const std::runtime_error& error) {
      loaded.refused.push_back("plugin '" + plugin.file.string() + "' cannot bring its settings: " + error.what());
      return true;
    }
  });
  return loaded;
}

std::vector<std::pair<std::string, std::filesystem::path>> data_folders(const std::vector<LoadedPlugin>& plugins) {
  std::vector<std::pair<std::string, std::filesystem::path>> folders;
  folders.reserve(plugins.size());
  for (const LoadedPlugin& plugin : plugins) folders.emplace_back(plugin.info.id, plugin.data_dir);
  return folders;
}

SettingsSchema settings_schema(const InputOptions& options) {
  SettingsSchema schema(options.schema_dir / "settings.schema.json");
  for (const auto& [id, folder] : options.plugin_folders) {
    const std::filesystem::path file = folder / "settings.schema.json";
    if (std::filesystem::exists(file)) schema.add_group(id, read_file(file));
  }
  return schema;
}

std::vector<std::filesystem::path> property_lists(const InputOptions& options) {
  std::vector<std::filesystem::path> lists{options.schema_dir / "model_properties.csv"};
  for (const auto& [id, folder] : options.plugin_folders) {
    if (std::filesystem::exists(folder / "properties.csv")) lists.push_back(folder / "properties.csv");
  }
  return lists;
}

Inputs read_inputs(const InputOptions& options) {
  Inputs inputs;
  inputs.export_bytes = read_file(options.export_file);
  if (const auto file = settings_file(options); !file.empty()) {
    inputs.settings_bytes = read_file(file);
    SettingsResult read = read_settings(*inputs.settings_bytes, file.string());
    inputs.settings = std::move(read.settings);
    inputs.diagnostics = std::move(read.diagnostics);
    const SettingsSchema schema = settings_schema(options);
    inputs.settings_files =
        read_settings_files(schema.tables(), inputs.settings, folder_of(file), file.string(), inputs.diagnostics);
    const Diagnostics faults = schema.faults_of(inputs.settings, file.string());
    std::copy(faults.begin(), faults.end(), std::back_inserter(inputs.diagnostics));
  }
  IntakeOptions intake;
  intake.schema_dir = options.schema_dir;
  Reporter report("the lists of properties");
  const std::vector<std::filesystem::path> lists = property_lists(options);
  intake.property_lists = load_property_lists({lists.begin() + 1, lists.end()}, report);
  inputs.property_list = property_list_text(read_property_lists(load_property_lists(lists, report), report));
  for (Diagnostic& fault : report.take()) inputs.diagnostics.push_back(std::move(fault));
  intake.project_dir = folder_of(options.export_file);
  intake.default_layer_order = layer_order_setting(inputs.settings, inputs.diagnostics);
  inputs.intake = read_export(inputs.export_bytes, options.export_file.string(), intake);
  std::copy(inputs.intake.diagnostics.begin(), inputs.intake.diagnostics.end(), std::back_inserter(inputs.diagnostics));
  return inputs;
}

void print_diagnostics(const Diagnostics& diagnostics) {
  if (diagnostics.empty()) return;
  std::size_t errors = 0;
  for (const Diagnostic& diagnostic : diagnostics) {
    std::cerr << to_string(diagnostic) << '\n';
    if (diagnostic.severity == Severity::error) ++errors;
  }
  std::cerr << counted(errors, "error") << ", " << counted(diagnostics.size() - errors, "warning") << '\n';
}

}  // namespace panel_dossier
