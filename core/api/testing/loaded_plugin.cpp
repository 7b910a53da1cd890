#include "core/api/testing/loaded_plugin.h"

#include <dlfcn.h>

#include <stdexcept>
#include <string>
#include <string_view>

#include "core/api/kit.h"

namespace panel_dossier::testing {

namespace {

const PluginEntry& entry_of(const std::filesystem::path& shared_object) {
  const auto said = [] {
    const char* text = ::dlerror();
    return std::string(text == nullptr ? "no reason given" : text);
  };
  void* const handle = ::dlopen(shared_object.c_str(), RTLD_NOW | RTLD_LOCAL);
  if (handle == nullptr) throw std::runtime_error("cannot load " + shared_object.string() + ": " + said());
  const void* const symbol = ::dlsym(handle, "panel_dossier_plugin");
  if (symbol == nullptr) throw std::runtime_error(shared_object.string() + " is no plugin: " + said());
  return *static_cast<const PluginEntry*>(symbol);
}

}  // namespace

LoadedPlugin::LoadedPlugin(const std::filesystem::path& shared_object) {
  const PluginEntry& entry = entry_of(shared_object);
  // The layout first: with another one, the members behind it stand elsewhere.
  const bool fits =
      entry.layout == kEntryLayout && std::string_view(entry.kit) == kKitHash && std::string_view(entry.abi) == kAbi;
  if (!fits) throw std::runtime_error(shared_object.string() + " was built with another kit or compiler");
  std::filesystem::path data_dir = shared_object;
  data_dir.replace_extension();
  plugin_.reset(entry.create(data_dir));
  if (!plugin_) throw std::runtime_error(shared_object.string() + " makes no plugin");
}

}  // namespace panel_dossier::testing
