#include "core/cli/plugin_options.h"

#include "core/api/support/words.h"
#include "core/cli/locations.h"

namespace panel_dossier {

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

std::vector<std::pair<std::string, std::filesystem::path>> data_folders(const std::vector<LoadedPlugin>& plugins) {
  std::vector<std::pair<std::string, std::filesystem::path>> folders;
  folders.reserve(plugins.size());
  for (const LoadedPlugin& plugin : plugins) folders.emplace_back(plugin.info.id, plugin.data_dir);
  return folders;
}

}  // namespace panel_dossier
