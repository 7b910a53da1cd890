#include "core/cli/inputs.h"

#include <CLI/CLI.hpp>
#include <chrono>
#include <cstddef>
#include <filesystem>
#include <iostream>
#include <map>
#include <stdexcept>

#include "core/api/support/text_encoding.h"
#include "core/api/support/words.h"
#include "core/cli/terminal/locations.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/document/file_bytes.h"
#include "core/intake/settings/settings_schema.h"

namespace panel_dossier {

namespace {

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
  const auto limits = "Limits of workers";
  const auto seconds = command.add_option_function<long>(
      "--time-limit", [&options](long limit_s) { options.limits.panel = std::chrono::seconds(limit_s); },
      "Seconds that a plugin may take for one panel, and twelve times as long for the project (default: 300)");
  seconds->check(CLI::Range(1L, 86400L))->group(limits);
  const auto megabytes = command.add_option_function<std::size_t>(
      "--memory-limit", [&options](std::size_t limit_mb) { options.limits.memory_bytes = limit_mb << 20; },
      "Megabytes that a plugin's worker may take beside the project; 0: all there are (default: 8192)");
  megabytes->check(CLI::Range(std::size_t{0}, std::size_t{1} << 24))->group(limits);
  command
      .add_flag("--in-process", options.in_process,
                "Run the plugins' code in this process, for debugging: what it does wrong may end the build")
      ->group(limits)
      ->excludes(seconds)
      ->excludes(megabytes);
}

PluginFolder load_plugins(const PluginOptions& options, const std::filesystem::path& schema_dir) {
  const auto in_worker = [&](const std::filesystem::path& file) { return load_plugin_in_worker(file, options.limits); };
  PluginFolder loaded =
      options.in_process ? load_plugins(options.folders()) : load_plugins(options.folders(), in_worker);
  SettingsSchema schema(schema_dir / "settings.schema.json");
  const StandardSets standard(schema_dir);
  std::erase_if(loaded.plugins, [&](const LoadedPlugin& plugin) {
    const std::string breach = written_back_breach(plugin.written_back, plugin.plugin->checks(), standard);
    if (!breach.empty()) {
      loaded.refused.push_back("plugin '" + plugin.file.string() + "' cannot write back " + breach);
      return true;
    }
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

ReadInputs read_with_plugins(const PluginOptions& plugins, InputOptions options) {
  ReadInputs read;
  read.plugins = load_plugins(plugins, options.schema_dir);
  for (const std::string& refused : read.plugins.refused) std::cerr << "refused: " << visible_text(refused) << '\n';
  options.plugin_folders = data_folders(read.plugins.plugins);
  read.inputs = read_inputs(options);
  read.options = std::move(options);
  return read;
}

void print_diagnostics(const Diagnostics& diagnostics) {
  if (diagnostics.empty()) return;
  // A warning of every panel hides the one of a single panel.
  constexpr std::size_t kShownOfOneKind = 3;
  std::size_t errors = 0;
  std::map<std::string, std::size_t> warnings;
  for (const Diagnostic& diagnostic : diagnostics) {
    if (diagnostic.severity == Severity::error) {
      ++errors;
    } else if (++warnings[diagnostic.message] > kShownOfOneKind) {
      continue;
    }
    std::cerr << to_string(diagnostic) << '\n';
  }
  for (const auto& [message, count] : warnings) {
    if (count <= kShownOfOneKind) continue;
    std::cerr << counted(count - kShownOfOneKind, "more warning") << " of that kind: " << visible_text(message) << '\n';
  }
  std::cerr << counted(errors, "error") << ", " << counted(diagnostics.size() - errors, "warning") << '\n';
}

}  // namespace panel_dossier
