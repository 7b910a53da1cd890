// A plugin under test: its shared object loaded, and one whole run of it over a project in memory.
#pragma once

#include <filesystem>
#include <memory>
#include <string_view>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
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

/// What one whole run gave.
struct PluginOutcomes {
  std::vector<CheckOutcome> panels;  ///< in the project's panel order
  CheckOutcome project;
};

/// The plugin's run. Passes on what the plugin throws, and throws std::runtime_error when it gives none.
std::unique_ptr<PluginRun> prepared(const Plugin& plugin, const Project& project, const Settings& settings);

/// Prepares a run, checks every panel in order and then the project, as the program does but in one thread. Passes on
/// what the plugin throws.
PluginOutcomes outcomes_of(const Plugin& plugin, const Project& project, const Settings& settings);

/// The declaration of that check, or null.
const CheckDeclaration* find_declaration(const Plugin& plugin, std::string_view check);
/// The finding of that check, or null.
const Finding* find_finding(const CheckOutcome& outcome, std::string_view check);
/// Why the check does not apply, or null when it does.
const NotApplicable* find_not_applicable(const CheckOutcome& outcome, std::string_view check);

}  // namespace panel_dossier::testing
