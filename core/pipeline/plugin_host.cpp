#include "core/pipeline/plugin_host.h"

#include <algorithm>
#include <boost/dll/shared_library.hpp>
#include <exception>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string_view>
#include <system_error>

#include "core/api/finding/contract.h"
#include "core/intake/settings/settings_schema.h"
#include "core/pipeline/write_access.h"

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

void require_same_kit(const PluginEntry& entry) {
  constexpr const char* kWhatToDo = "; build the plugin again with the kit that is installed beside this program";
  if (entry.layout != kEntryLayout) {
    throw PluginRefused("was built with entry layout " + std::to_string(entry.layout) + ", this program has " +
                        std::to_string(kEntryLayout) + kWhatToDo);
  }
  if (std::string_view(entry.kit) != kKitHash) {
    throw PluginRefused("was built with kit " + std::string(entry.kit).substr(0, 12) + ", this program has " +
                        std::string(kKitHash).substr(0, 12) + kWhatToDo);
  }
  if (std::string_view(entry.abi) != kAbi) {
    throw PluginRefused("was compiled as '" + std::string(entry.abi) + "', this program as '" + kAbi + "'" +
                        "; compile the plugin with the same compiler and flags");
  }
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

std::string text_of(const std::filesystem::path& file) {
  std::ifstream stream(file);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// Throws PluginRefused when the place can be written by other users: its code would run with this user's rights.
void require_own(const std::filesystem::path& place, const char* what) {
  const std::string others = writable_by_others(place);
  if (!others.empty()) throw PluginRefused(std::string("is not run: ") + what + " " + others);
}

/// What `loaded` claims that one of `others` has already, as the end of a sentence; empty when there is nothing.
std::string claimed_twice(const LoadedPlugin& loaded, const std::vector<LoadedPlugin>& others) {
  for (const LoadedPlugin& other : others) {
    const std::string of_other = " of '" + other.file.string() + "'; remove one of the two";
    if (other.info.id == loaded.info.id) return "has the id '" + loaded.info.id + "'" + of_other;
    for (const OutputDeclaration& output : loaded.outputs) {
      const auto same = [&](const OutputDeclaration& their) { return their.file == output.file; };
      if (std::any_of(other.outputs.begin(), other.outputs.end(), same)) {
        return "writes the output '" + output.file + "'" + of_other;
      }
    }
    for (const WrittenBack& row : loaded.written_back) {
      const auto same = [&](const WrittenBack& their) {
        return their.set == row.set && their.property == row.property;
      };
      if (std::any_of(other.written_back.begin(), other.written_back.end(), same)) {
        return "writes back '" + row.set + "." + row.property + "'" + of_other;
      }
    }
    for (const CheckDeclaration& check : loaded.plugin->checks()) {
      const auto& theirs = other.plugin->checks();
      const auto same = [&](const CheckDeclaration& their) { return !check.role.empty() && their.role == check.role; };
      if (std::any_of(theirs.begin(), theirs.end(), same)) return "claims the role '" + check.role + "'" + of_other;
    }
  }
  return {};
}

}  // namespace

void read_plugin_files(LoadedPlugin& loaded) {
  const std::filesystem::path schema = loaded.data_dir / "settings.schema.json";
  const std::filesystem::path outputs = loaded.data_dir / "outputs.json";
  const std::filesystem::path written_back = loaded.data_dir / "written_back.json";
  const auto reading = [](const std::filesystem::path& file, const auto& read) {
    if (!std::filesystem::exists(file)) return;
    try {
      read();
    } catch (const std::exception& error) {
      throw PluginRefused("has a broken '" + file.string() + "': " + error.what() + "; mend the file");
    }
  };
  reading(schema, [&] { SettingsSchema::check_group(text_of(schema)); });
  reading(outputs, [&] { loaded.outputs = read_outputs(outputs); });
  reading(written_back, [&] { loaded.written_back = read_written_back(written_back); });
  reading(loaded.data_dir / "guidance.csv", [&] {
    loaded.guidance = read_guidance(loaded.data_dir / "guidance.csv");
    for (const GuidanceRow& row : loaded.guidance) {
      if (row.id.starts_with(loaded.info.id + ".")) continue;
      throw std::runtime_error("line " + std::to_string(row.line) + ": the id '" + row.id + "' does not begin with '" +
                               loaded.info.id + ".'");
    }
  });
}

LoadedPlugin load_plugin(const std::filesystem::path& file) {
  const auto library = open(file);
  const auto& entry = library->get<const PluginEntry>(kEntrySymbol);
  require_same_kit(entry);
  const std::string id = entry.id;
  if (id.find('/') != std::string::npos || id.find('.') != std::string::npos) {
    throw PluginRefused("has the id '" + id + "', which names another folder; use letters, digits and underscores");
  }
  LoadedPlugin loaded;
  loaded.file = file;
  loaded.data_dir = file.parent_path() / id;
  std::unique_ptr<Plugin> plugin = create(entry, loaded.data_dir);
  std::string breach;
  // What the plugin throws must not outlive its code, so it is taken in words while the library is open.
  const auto guarded = [](const auto& ask) {
    try {
      ask();
    } catch (const std::exception& error) {
      throw PluginRefused("cannot say what it is: " + std::string(error.what()));
    } catch (...) {
      throw PluginRefused("threw something that is not a std::exception when asked what it is");
    }
  };
  guarded([&] {
    loaded.info = plugin->info();
    breach = declaration_breach(plugin->checks(), id);
  });
  if (loaded.info.id != id) {
    throw PluginRefused("calls itself '" + loaded.info.id + "' but its entry says '" + id + "'; make both the same");
  }
  if (!breach.empty()) {
    throw PluginRefused("declares a check that cannot be taken: " + breach + "; mend its declaration");
  }
  // Before it is let in, so that nothing of it is half loaded.
  read_plugin_files(loaded);
  // The deleter holds the library, so that the plugin's code outlives the plugin.
  loaded.plugin = std::shared_ptr<const Plugin>(plugin.release(), [library](const Plugin* object) { delete object; });
  return loaded;
}

PluginFolder load_plugins(const std::vector<std::filesystem::path>& folders, const PluginLoader& load) {
  PluginFolder result;
  for (const auto& folder : folders) {
    for (const auto& file : shared_objects_in(folder)) {
      // A folder given twice, or the program's own given again, is no second plugin.
      std::error_code unreadable;
      const auto is_same = [&](const LoadedPlugin& other) {
        return std::filesystem::equivalent(other.file, file, unreadable);
      };
      if (std::any_of(result.plugins.begin(), result.plugins.end(), is_same)) continue;
      const auto refuse = [&](const std::string& why) {
        result.refused.push_back("plugin '" + file.string() + "' " + why);
      };
      try {
        require_own(folder, "its folder");
        require_own(file, "it");
        LoadedPlugin loaded = load(file);
        if (std::filesystem::exists(loaded.data_dir)) require_own(loaded.data_dir, "its data folder");
        if (const std::string claim = claimed_twice(loaded, result.plugins); !claim.empty()) {
          refuse(claim);
        } else {
          result.plugins.push_back(std::move(loaded));
        }
      } catch (const std::exception& error) {
        refuse(error.what());
      }
    }
  }
  std::sort(result.plugins.begin(), result.plugins.end(),
            [](const LoadedPlugin& a, const LoadedPlugin& b) { return a.info.id < b.info.id; });
  return result;
}

}  // namespace panel_dossier
