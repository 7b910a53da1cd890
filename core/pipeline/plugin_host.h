// Finds, checks and loads plugins from folders of shared objects.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "core/api/plugin.h"
#include "core/pipeline/guidance/guidance_table.h"
#include "core/pipeline/outputs.h"
#include "core/pipeline/written_back.h"

namespace panel_dossier {

struct LoadedPlugin {
  PluginInfo info;
  std::filesystem::path file;
  /// Folder of the plugin's id beside the shared object: its data tables, settings.schema.json, properties.csv,
  /// outputs.json, written_back.json and guidance.csv, each of them optional; the folder too.
  std::filesystem::path data_dir;
  std::vector<OutputDeclaration> outputs;
  std::vector<WrittenBack> written_back;
  std::vector<GuidanceRow> guidance;
  std::shared_ptr<const Plugin> plugin;  ///< keeps the shared object loaded
};

struct PluginFolder {
  std::vector<LoadedPlugin> plugins;  ///< ordered by id
  /// One message for each shared object that was refused: file, what is wrong, what to do.
  std::vector<std::string> refused;
};

/// Loads the shared object `file`. Throws std::runtime_error saying why it is refused and what to do: it cannot be
/// loaded, lacks the entry symbol, was built with another kit, compiler or flags, throws while being made, states
/// another id than its entry, breaks the contract of declarations, or one of its own files is broken.
LoadedPlugin load_plugin(const std::filesystem::path& file);

/// The plugin's own files, which lie in its `data_dir`, into it: what it writes and writes back, its sentences of
/// guidance, whose ids begin with its own; its settings are looked through. Throws std::runtime_error naming the broken
/// file.
void read_plugin_files(LoadedPlugin& loaded);

/// Loads one shared object; `load_plugin` or what stands in for it.
using PluginLoader = std::function<LoadedPlugin(const std::filesystem::path& file)>;

/// Loads every `*.so` of the folders. Refused too is a plugin of which the shared object, its folder or its data folder
/// can be written by other users, and one that repeats the id, an output, a property written back
/// or a role of one loaded before it (by folder, then by file name). Throws std::runtime_error when a folder cannot be
/// read.
PluginFolder load_plugins(const std::vector<std::filesystem::path>& folders, const PluginLoader& load = load_plugin);

}  // namespace panel_dossier
