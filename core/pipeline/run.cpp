#include "core/pipeline/run.h"

#include <oneapi/tbb/global_control.h>
#include <oneapi/tbb/parallel_for.h>
#include <oneapi/tbb/task_arena.h>

#include <algorithm>
#include <exception>
#include <functional>
#include <iterator>
#include <string>
#include <utility>

#include "core/pipeline/contract.h"

namespace panel_dossier {

namespace {

/// What one call of one plugin gave: findings, or why there are none.
struct CallResult {
  std::vector<Finding> findings;
  std::string failure;
};

Finding finding_of_failure(const PluginInfo& plugin, const std::string& panel, const std::string& why) {
  Finding finding;
  finding.check = plugin.id + ".run";
  finding.title = plugin.title + ": could not be run";
  finding.panel = panel;
  finding.verdict = Verdict::not_assessed;
  finding.reason = why;
  finding.clause = "none: the plugin failed before it applied any";
  return finding;
}

CallResult call(const PluginInfo& plugin, const std::string& panel_id, const std::string& subject,
                const std::function<std::vector<Finding>()>& check) {
  CallResult result;
  std::string why;
  try {
    result.findings = check();
    why = contract_breach(result.findings, plugin.id, panel_id);
  } catch (const std::exception& error) {
    why = error.what();
  } catch (...) {
    why = "threw something that is not a std::exception";
  }
  if (!why.empty()) {
    result.failure = "plugin '" + plugin.id + "' failed on " + subject + ": " + why;
    result.findings = {finding_of_failure(plugin, panel_id, "the plugin failed: " + why)};
  }
  return result;
}

std::string subject_of(const Panel& panel) {
  return "panel '" + panel.mark + "'";
}

/// Results of every panel and plugin: `calls[panel][plugin]`.
using CallGrid = std::vector<std::vector<CallResult>>;

CallGrid run_panels(const Project& project, const Settings& settings, const std::vector<LoadedPlugin>& plugins,
                    Progress& progress) {
  CallGrid calls(project.panels.size());
  oneapi::tbb::parallel_for(std::size_t{0}, project.panels.size(), [&](std::size_t index) {
    const Panel& panel = project.panels[index];
    for (const LoadedPlugin& loaded : plugins) {
      CallResult result = call(loaded.info, panel.global_id, subject_of(panel),
                               [&] { return loaded.plugin->check_panel(panel, project, settings); });
      std::stable_sort(result.findings.begin(), result.findings.end(),
                       [](const Finding& a, const Finding& b) { return a.check < b.check; });
      calls[index].push_back(std::move(result));
    }
    progress.advance(1);
  });
  return calls;
}

void run_project(const Project& project, const Settings& settings, const LoadedPlugin& loaded,
                 const std::vector<PanelFindings>& own, Results& results) {
  CallResult result =
      call(loaded.info, {}, "the project", [&] { return loaded.plugin->check_project(project, own, settings); });
  if (!result.failure.empty()) results.failures.push_back(std::move(result.failure));
  std::move(result.findings.begin(), result.findings.end(), std::back_inserter(results.project_findings));
}

std::vector<PanelFindings> findings_of_plugin(const Project& project, CallGrid& calls, std::size_t plugin) {
  std::vector<PanelFindings> own(project.panels.size());
  for (std::size_t i = 0; i < own.size(); ++i) {
    own[i].panel = &project.panels[i];
    own[i].findings = std::move(calls[i][plugin].findings);
  }
  return own;
}

}  // namespace

Results run_checks(const Project& project, const Settings& settings, const std::vector<LoadedPlugin>& plugins,
                   int threads, Progress& progress) {
  Results results;
  for (const LoadedPlugin& loaded : plugins) results.plugins.push_back({loaded.info, loaded.file, loaded.data_dir});
  results.panel_findings.resize(project.panels.size());

  progress.begin("checking panels", project.panels.size());
  using oneapi::tbb::global_control;
  const int concurrency = threads > 0 ? threads : oneapi::tbb::this_task_arena::max_concurrency();
  const global_control limit(global_control::max_allowed_parallelism, static_cast<std::size_t>(concurrency));
  oneapi::tbb::task_arena arena(concurrency);
  CallGrid calls;
  arena.execute([&] { calls = run_panels(project, settings, plugins, progress); });
  for (std::size_t panel = 0; panel < calls.size(); ++panel) {
    for (CallResult& result : calls[panel]) {
      if (!result.failure.empty()) results.failures.push_back(std::move(result.failure));
    }
  }

  progress.begin("checking the project", plugins.size());
  for (std::size_t plugin = 0; plugin < plugins.size(); ++plugin) {
    std::vector<PanelFindings> own = findings_of_plugin(project, calls, plugin);
    run_project(project, settings, plugins[plugin], own, results);
    for (std::size_t panel = 0; panel < own.size(); ++panel) {
      std::move(own[panel].findings.begin(), own[panel].findings.end(),
                std::back_inserter(results.panel_findings[panel]));
    }
    progress.advance(1);
  }
  return results;
}

}  // namespace panel_dossier
