// What a plugin is, and how the program finds it.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/kit.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier {

struct PluginInfo {
  std::string id;  ///< the discipline: prefix of its check ids, name of its data folder and of its group of settings
  std::string title;
  std::string version;
  std::vector<std::string> standards;  ///< each with year
  std::string caution;                 ///< printed on every page of the discipline's chapter; empty when none is usual
};

/// A declared check that has nothing to say of a panel or project, and why: `the panel has no opening`.
struct NotApplicable {
  std::string check;
  std::string reason;
};

/// What one call gives: for every declared check of its scope a finding or the reason why there is none.
struct CheckOutcome {
  std::vector<Finding> findings;
  std::vector<NotApplicable> not_applicable = {};
};

struct PanelFindings {
  const Panel* panel = nullptr;  ///< lives as long as the project
  std::vector<Finding> findings;
};

/// Something wrong in a file that the plugin reads beside the export, such as a declaration among the evidence.
struct InputProblem {
  std::string file;        ///< relative to the project folder
  std::uint32_t line = 0;  ///< from 1; 0 when the whole file is meant
  std::string message;     ///< what is wrong and what was done about it
  std::string advice;      ///< what to do
};

/// A row of an output that the plugin declares in outputs.json: one cell for each of its columns.
using OutputRow = std::vector<Value>;

/// One run of a plugin over one project: holds what all panels share, worked out once. Pure and thread-safe from then
/// on: `check_panel` is called from several threads at once on one object, for any panels in any order; the same
/// project and settings give the same findings. A throwing call costs the findings of that panel, no more.
class PluginRun {
 public:
  virtual ~PluginRun() = default;
  /// Every declared check of panels for one panel, those that cannot be assessed included.
  virtual CheckOutcome check_panel(const Panel& panel) const = 0;
  /// Findings of the project as a whole, their `panel` empty; totals stand under the id of the panels' check. Called
  /// once, after every panel. `panels` holds this plugin's own findings only, in the project's panel order, as
  /// `result_only` leaves them: what is wanted of a derivation is a value or a table with an id.
  virtual CheckOutcome check_project(const std::vector<PanelFindings>& panels) const = 0;
  /// The rows that one panel adds to `output`, a file name of outputs.json; called for each panel in the project's
  /// order.
  virtual std::vector<OutputRow> panel_rows(std::string_view output, const PanelFindings& panel) const;
  /// The rows behind those of the panels; `findings` are the plugin's own of the project.
  virtual std::vector<OutputRow> project_rows(std::string_view output, const std::vector<Finding>& findings) const;
  /// What was wrong with files read while preparing; told to the user as warnings.
  virtual std::vector<InputProblem> problems() const;
};

/// Immutable once made, so safe to share between threads.
class Plugin {
 public:
  virtual ~Plugin() = default;
  /// The same objects for the plugin's whole life.
  virtual const PluginInfo& info() const = 0;
  /// In the order of the dossier. A finding of any other id is refused.
  virtual const std::vector<CheckDeclaration>& checks() const = 0;
  /// Starts a run; both arguments outlive it. May throw: the run of this plugin then fails with the message.
  virtual std::unique_ptr<PluginRun> prepare(const Project& project, const Settings& settings) const = 0;
};

/// What the shared object exports, as the symbol `panel_dossier_plugin`. Plain data first, so that a plugin built with
/// another kit is recognised before any of its code runs.
struct PluginEntry {
  std::uint32_t layout;  ///< kEntryLayout
  const char* kit;       ///< kKitHash of the kit it was built with
  const char* abi;       ///< kAbi of its compiler and flags
  const char* id;
  /// Gives an object that the caller deletes. `data_dir` is the plugin's own folder of data tables. May throw; the
  /// plugin is then refused with the message.
  Plugin* (*create)(const std::filesystem::path& data_dir);
};

/// Raised when PluginEntry itself changes; everything else is told by kKitHash. 3 and less: entries without a hash.
inline constexpr std::uint32_t kEntryLayout = 4;

}  // namespace panel_dossier

/// Exports `Class(data_dir)` as the plugin of this shared object. Use once, at namespace scope.
#define PANEL_DOSSIER_PLUGIN(Class, Id)                                                                      \
  extern "C" __attribute__((visibility("default"))) const ::panel_dossier::PluginEntry panel_dossier_plugin; \
  const ::panel_dossier::PluginEntry panel_dossier_plugin = {                                                \
      ::panel_dossier::kEntryLayout, ::panel_dossier::kKitHash, ::panel_dossier::kAbi, Id,                   \
      [](const std::filesystem::path& data_dir) -> ::panel_dossier::Plugin* { return new Class(data_dir); }}
