// What a plugin is, and how the program finds it.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier {

/// Raised whenever a type in core/api changes in a way that an older plugin would misread.
inline constexpr std::uint32_t kApiVersion = 3;

struct PluginInfo {
  std::string id;  ///< the discipline: prefix of its check ids and name of its data folder
  std::string title;
  std::string version;
  std::vector<std::string> standards;  ///< each with year
  std::string caution;                 ///< printed on every page of the discipline's chapter; empty when none is usual
};

struct PanelFindings {
  const Panel* panel = nullptr;  ///< lives as long as the project
  std::vector<Finding> findings;
};

/// Pure and thread-safe: `check_panel` is called from several threads at once on one object, for any panels in any
/// order; the same arguments give the same findings. A throwing call costs the findings of that panel, no more.
class Plugin {
 public:
  virtual ~Plugin() = default;
  /// The same object for the plugin's whole life.
  virtual const PluginInfo& info() const = 0;
  /// Every check of the discipline for one panel, each under its own id, those that cannot be assessed included: a
  /// check that is left out looks like one that does not exist.
  virtual std::vector<Finding> check_panel(const Panel& panel, const Project& project,
                                           const Settings& settings) const = 0;
  /// Findings of the project as a whole, their `panel` empty; totals stand under the id of the panels' check. Called
  /// once, after every panel. `panels` holds this plugin's own findings only, in the project's panel order.
  virtual std::vector<Finding> check_project(const Project& project, const std::vector<PanelFindings>& panels,
                                             const Settings& settings) const = 0;
};

/// What the shared object exports, as the symbol `panel_dossier_plugin`. Plain data first, so that a plugin built for
/// another api version is recognised before any of its code runs.
struct PluginEntry {
  std::uint32_t api_version;
  const char* id;
  /// Gives an object that the caller deletes. `data_dir` is the plugin's own folder of data tables. May throw; the
  /// plugin is then refused with the message.
  Plugin* (*create)(const std::filesystem::path& data_dir);
};

}  // namespace panel_dossier

/// Exports `Class(data_dir)` as the plugin of this shared object. Use once, at namespace scope.
#define PANEL_DOSSIER_PLUGIN(Class, Id)                                                                      \
  extern "C" __attribute__((visibility("default"))) const ::panel_dossier::PluginEntry panel_dossier_plugin; \
  const ::panel_dossier::PluginEntry panel_dossier_plugin = {                                                \
      ::panel_dossier::kApiVersion, Id,                                                                      \
      [](const std::filesystem::path& data_dir) -> ::panel_dossier::Plugin* { return new Class(data_dir); }}
