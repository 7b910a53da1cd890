// Finds, checks and loads plugins from a folder of shared objects.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "core/api/plugin.h"

namespace panel_dossier {

struct LoadedPlugin {
  PluginInfo info;
  std::filesystem::path file;
  std::filesystem::path data_dir;
  std::shared_ptr<const Plugin> plugin;  ///< keeps the shared object loaded
};

struct PluginFolder {
  std::vector<LoadedPlugin> plugins;  ///< ordered by id
  /// One message for each shared object that was refused: file, what is wrong, what to do.
  std::vector<std::string> refused;
};

/// Loads every `*.so` of `folder`. A plugin is refused when it cannot be loaded, lacks the entry symbol, was built for
/// another api version, throws while being made, states another id than its entry, or repeats an id already loaded (the
/// first by file name is kept). Throws std::runtime_error when the folder itself cannot be read.
PluginFolder load_plugins(const std::filesystem::path& folder);

}  // namespace panel_dossier
