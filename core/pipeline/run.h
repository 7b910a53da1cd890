// Runs every plugin over every panel: what that gives, and who is told how far it has come.
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"
#include "core/pipeline/outputs.h"
#include "core/pipeline/plugin_host.h"
#include "core/pipeline/record/recorded_finding.h"
#include "core/pipeline/store/result_store.h"

namespace panel_dossier {

struct PluginRecord {
  PluginInfo info;
  std::vector<CheckDeclaration> checks;
  std::filesystem::path file;      ///< the shared object
  std::filesystem::path data_dir;  ///< its data tables
};

/// Why the findings of one plugin on a panel, or on the project, were computed and not taken from the store.
struct Computed {
  std::string plugin;                ///< id
  std::optional<std::size_t> panel;  ///< index into Project::panels; none for the project
  std::string why;                   ///< `setting a.b: 1 -> 2`, `the panel`, …: what is new, with commas between
};

/// What a run of all plugins over all panels gives.
struct Results {
  std::vector<PluginRecord> plugins;  ///< ordered by id
  /// One entry a panel of Project::panels, by plugin id then check. Equal derivations of the run are one object.
  std::vector<std::vector<RecordedFinding>> panel_findings;
  std::vector<std::vector<NotApplicable>> panel_not_applicable;  ///< one entry a panel, by plugin id
  std::vector<RecordedFinding> project_findings;                 ///< by plugin id, then in the plugin's order
  std::vector<NotApplicable> project_not_applicable;
  std::vector<OutputTable> outputs;    ///< by plugin id, then in the order of its declaration
  std::vector<InputProblem> problems;  ///< in files that plugins read beside the export
  std::vector<std::string> withheld;   ///< claims of project and settings that no check may use, once each
  /// What a plugin or the environment did wrong, one message each; not empty means the build is incomplete.
  std::vector<std::string> failures;
  std::size_t reused = 0;             ///< results of one plugin on one panel that came from the store
  std::size_t reused_of_project = 0;  ///< likewise on the project
  /// Those that did not, in a run with a store: by panel, then plugin, those on the project last.
  std::vector<Computed> computed;
};

/// The results of earlier runs, and what this run's follow from beside project, settings and plugins.
struct EarlierResults {
  ResultStore& store;
  std::string project;  ///< names the builds that this one is compared with to say what is new
  Digest files;         ///< of the files read beside the export
};

/// Is told how far a long run has come. One stage at a time: `begin`, then `advance` until `total` is reached.
/// `advance` may be called from several threads at once; the rest from one.
class Progress {
 public:
  virtual ~Progress() = default;
  virtual void begin(const std::string& stage, std::size_t total) = 0;
  virtual void advance(std::size_t count) = 0;
};

/// For callers that show nothing.
class NoProgress final : public Progress {
 public:
  void begin(const std::string& /*stage*/, std::size_t /*total*/) override {}
  void advance(std::size_t /*count*/) override {}
};

/// With `earlier`, what its store holds is not computed again and what it lacks is put there; the results are the same.
/// Panels run in parallel on `threads` threads (0: as many as the machine has). The results do not depend on the number
/// of threads. A plugin that throws or breaks the contract costs the findings of that one call: it leaves a finding
/// `<plugin>.run` that is `not assessed`, and a message in Results::failures.
Results run_checks(const Project& project, const Settings& settings, const std::vector<LoadedPlugin>& plugins,
                   int threads, Progress& progress, const std::optional<EarlierResults>& earlier = std::nullopt);

/// One of several parts of a project that are computed apart.
struct Share {
  std::size_t number = 1;  ///< from 1
  std::size_t of = 1;
};

/// Indices of the panels of the share, ascending. Every panel is in one share; the shares have about equal numbers of
/// parts, on which the time of the checks depends most.
std::vector<std::size_t> panels_of_share(const Project& project, const Share& share);

/// Computes what the store lacks of the panels of the share, and nothing of the project as a whole. Results::computed,
/// `reused`, `failures` and `problems` alone are filled.
Results run_share(const Project& project, const Settings& settings, const std::vector<LoadedPlugin>& plugins,
                  const Share& share, int threads, Progress& progress, const EarlierResults& earlier);

}  // namespace panel_dossier
