// A plugin's shared object, loaded for a test.
#pragma once

#include <filesystem>
#include <memory>

#include "core/api/plugin.h"

namespace panel_dossier::testing {

/// Loads `NAME.so` and makes the plugin with the data folder `NAME` beside it, as the build tree and the installation
/// have them. Throws std::runtime_error when the file cannot be loaded, is no plugin, or was built with another kit or
/// compiler. The shared object stays loaded until the program ends, so findings may outlive this.
class LoadedPlugin {
 public:
  explicit LoadedPlugin(const std::filesystem::path& shared_object);

  const Plugin& operator*() const { return *plugin_; }
  const Plugin* operator->() const { return plugin_.get(); }

 private:
  std::unique_ptr<const Plugin> plugin_;
};

}  // namespace panel_dossier::testing
