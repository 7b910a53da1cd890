#include "core/cli/build/project_plugins.h"

#include <algorithm>
#include <set>
#include <utility>

#include "core/intake/document/sha256.h"

namespace panel_dossier {

std::vector<std::string> absent_disciplines(const Settings& settings, const std::vector<LoadedPlugin>& loaded,
                                            const std::string& folders) {
  std::vector<std::string> messages;
  for (std::size_t i = 0;; ++i) {
    const auto expected = settings.text("plugins.expected." + std::to_string(i));
    if (!expected) return messages;
    const bool is_loaded = std::any_of(loaded.begin(), loaded.end(),
                                       [&](const LoadedPlugin& plugin) { return plugin.info.id == expected->value; });
    if (is_loaded) continue;
    messages.push_back("the discipline '" + expected->value + "' is expected by the setting 'plugins.expected' but " +
                       folders + " gave no plugin of that id, so none of its checks was made; put the plugin " +
                       "back or take the discipline out of the setting");
  }
}

void refuse_not_allowed(PluginFolder& plugins, const Settings& settings) {
  std::set<std::string> allowed;
  for (std::size_t i = 0;; ++i) {
    const auto hash = settings.text("plugins.allowed." + std::to_string(i));
    if (!hash) break;
    allowed.insert(hash->value);
  }
  if (allowed.empty()) return;
  std::erase_if(plugins.plugins, [&](const LoadedPlugin& plugin) {
    std::string hash = to_hex(sha256_file(plugin.file));
    if (allowed.contains(hash)) return false;
    plugins.refused.push_back("plugin '" + plugin.file.string() + "' is not run: its SHA-256 " + hash +
                              " is not one that the setting 'plugins.allowed' lists; add it there once somebody has " +
                              "looked at the plugin");
    return true;
  });
}

}  // namespace panel_dossier
