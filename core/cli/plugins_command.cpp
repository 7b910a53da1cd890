#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>

#include "core/cli/commands.h"
#include "core/cli/exit_status.h"
#include "core/cli/locations.h"
#include "core/pipeline/plugin_host.h"
#include "core/trace/sha256.h"

namespace panel_dossier {

namespace {

void print_plugin(const LoadedPlugin& loaded) {
  std::cout << loaded.info.id << ' ' << loaded.info.version << "  " << loaded.info.title << '\n'
            << "  file: " << loaded.file.string() << '\n'
            << "  sha256: " << to_hex(sha256_file(loaded.file)) << '\n';
  for (const std::string& standard : loaded.info.standards) std::cout << "  applies: " << standard << '\n';
}

int list_plugins(const std::filesystem::path& folder) {
  const PluginFolder loaded = load_plugins(folder);
  for (const LoadedPlugin& plugin : loaded.plugins) print_plugin(plugin);
  for (const std::string& refused : loaded.refused) std::cerr << "refused: " << refused << '\n';
  if (loaded.plugins.empty()) std::cerr << "no plugin was loaded from '" << folder.string() << "'\n";
  return loaded.refused.empty() && !loaded.plugins.empty() ? exit_status::kClean : exit_status::kIncomplete;
}

}  // namespace

void add_plugins_command(CLI::App& app, int& status) {
  auto folder = std::make_shared<std::filesystem::path>(default_plugin_dir());
  CLI::App* command = app.add_subcommand("plugins", "List the plugins: versions, hashes, the standards each applies");
  command->add_option("--plugins", *folder, "Folder of plugins")->capture_default_str();
  command->callback([folder, &status] {
    try {
      status = list_plugins(*folder);
    } catch (const std::runtime_error& error) {
      std::cerr << "panel-dossier: error: " << error.what() << '\n';
      status = exit_status::kIncomplete;
    }
  });
}

}  // namespace panel_dossier
