#include "core/pipeline/plugin_host.h"

#include <algorithm>
#include <boost/dll/shared_library.hpp>
#include <exception>
#include <stdexcept>
#include <string_view>
#include <system_error>

namespace panel_dossier {

namespace {

constexpr const char* kEntrySymbol = "panel_dossier_plugin";

/// Why a shared object cannot serve as a plugin.
class PluginRefused : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

std::vector<std::filesystem::path> shared_objects_in(const std::filesystem::path& folder) {
  std::error_code error;
  std::filesystem::directory_iterator entries(folder, error);
  if (error) {
    throw std::runtime_error("cannot read plugin folder '" + folder.string() + "': " + error.message() +
                             "; give the folder with --plugins");
  }
  std::vector<std::filesystem::path> files;
  for (const auto& entry : entries) {
    if (entry.path().extension() == ".so") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

std::shared_ptr<boost::dll::shared_library> open(const std::filesystem::path& file) {
  boost::system::error_code error;
  auto library = std::make_shared<boost::dll::shared_library>();
  library->load(boost::dll::fs::path(file.string()), error, boost::dll::load_mode::rtld_now);
  if (error)
    throw PluginRefused("cannot be loaded: " + error.message() + "; rebuild it against this program's core/api");
  if (!library->has(kEntrySymbol)) {
    throw PluginRefused("does not export '" + std::string(kEntrySymbol) + "'; declare it with PANEL_DOSSIER_PLUGIN");
  }
  return library;
}

void require_api_version(const PluginEntry& entry) {
  if (entry.api_version == kApiVersion) return;
  throw PluginRefused("was built for api version " + std::to_string(entry.api_version) + ", this program has " +
                      std::to_string(kApiVersion) + "; rebuild the plugin against this program's core/api");
}

std::unique_ptr<Plugin> create(const PluginEntry& entry, const std::filesystem::path& data_dir) {
  std::unique_ptr<Plugin> plugin;
  try {
    plugin.reset(entry.create(data_dir));
  } catch (const std::exception& error) {
    throw PluginRefused("could not start: " + std::string(error.what()) + "; check its data tables in '" +
                        data_dir.string() + "'");
  } catch (...) {
    throw PluginRefused("could not start: it threw something that is not a std::exception");
  }
  if (!plugin) throw PluginRefused("its create function returned nothing");
  return plugin;
}

LoadedPlugin load(const std::filesystem::path& file) {
  const auto library = open(file);
  const auto& entry = library->get<const PluginEntry>(kEntrySymbol);
  require_api_version(entry);
  const std::string id = entry.id;
  LoadedPlugin loaded;
  loaded.file = file;
  loaded.data_dir = file.parent_path() / id;
  std::unique_ptr<Plugin> plugin = create(entry, loaded.data_dir);
  loaded.info = plugin->info();
  if (loaded.info.id != id) {
    throw PluginRefused("calls itself '" + loaded.info.id + "' but its entry says '" + id + "'; make both the same");
  }
  // The deleter holds the library, so that the plugin's code outlives the plugin.
  loaded.plugin = std::shared_ptr<const Plugin>(plugin.release(), [library](const Plugin* object) { delete object; });
  return loaded;
}

}  // namespace

PluginFolder load_plugins(const std::filesystem::path& folder) {
  PluginFolder result;
  for (const auto& file : shared_objects_in(folder)) {
    const auto refuse = [&](const std::string& why) {
      result.refused.push_back("plugin '" + file.string() + "' " + why);
    };
    try {
      LoadedPlugin loaded = load(file);
      const auto same_id = std::find_if(result.plugins.begin(), result.plugins.end(),
                                        [&](const LoadedPlugin& other) { return other.info.id == loaded.info.id; });
      if (same_id != result.plugins.end()) {
        refuse("has the id '" + loaded.info.id + "' of '" + same_id->file.string() + "'; remove one of the two");
      } else {
        result.plugins.push_back(std::move(loaded));
      }
    } catch (const std::exception& error) {
      refuse(error.what());
    }
  }
  std::sort(result.plugins.begin(), result.plugins.end(),
            [](const LoadedPlugin& a, const LoadedPlugin& b) { return a.info.id < b.info.id; });
  return result;
}

}  // namespace panel_dossier
