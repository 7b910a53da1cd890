// What a run of all plugins over all panels gives.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/plugin.h"
#include "core/pipeline/outputs.h"

namespace panel_dossier {

struct PluginRecord {
  PluginInfo info;
  std::vector<CheckDeclaration> checks;
  std::filesystem::path file;      ///< the shared object
  std::filesystem::path data_dir;  ///< its data tables
};

struct Results {
  std::vector<PluginRecord> plugins;                 ///< ordered by id
  std::vector<std::vector<Finding>> panel_findings;  ///< one entry a panel of Project::panels, by plugin id then check
  std::vector<std::vector<NotApplicable>> panel_not_applicable;  ///< one entry a panel, by plugin id
  std::vector<Finding> project_findings;                         ///< by plugin id, then in the plugin's order
  std::vector<NotApplicable> project_not_applicable;
  std::vector<OutputTable> outputs;    ///< by plugin id, then in the order of its declaration
  std::vector<InputProblem> problems;  ///< in files that plugins read beside the export
  /// What a plugin or the environment did wrong, one message each; not empty means the build is incomplete.
  std::vector<std::string> failures;
};

}  // namespace panel_dossier
