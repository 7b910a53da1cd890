#include "core/pipeline/run.h"

#include <oneapi/tbb/global_control.h>
#include <oneapi/tbb/parallel_for.h>
#include <oneapi/tbb/task_arena.h>

#include <algorithm>
#include <exception>
#include <functional>
#include <iterator>
#include <memory>
#include <stdexcept>
#include <string>
#include <utility>

#include "core/api/finding/contract.h"
#include "core/api/finding/withheld_claims.h"

namespace panel_dossier {

namespace {

/// What one call of one plugin gave: findings, or why there are none.
struct CallResult {
  CheckOutcome outcome;
  std::string failure;
};

/// What the calls of all plugins for one panel gave, recorded.
struct PanelCalls {
  std::vector<RecordedFinding> findings;  ///< by plugin
  std::vector<std::size_t> ends;          ///< of each plugin's findings, in the order of the plugins
  std::vector<NotApplicable> not_applicable;
  std::vector<std::string> failures;
};

/// A plugin with its run; without one where it could not be prepared.
struct Prepared {
  const LoadedPlugin* loaded = nullptr;
  std::unique_ptr<PluginRun> run;
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

/// What the guarded call threw, in words; empty when it came back.
std::string fault_of(const std::function<void()>& call) {
  try {
    call();
  } catch (const std::exception& error) {
    return error.what();
  } catch (...) {
    return "threw something that is not a std::exception";
  }
  return {};
}

/// `withhold` takes from the outcome what rests on a claim that may not be used.
CallResult call(const Prepared& prepared, const std::string& panel_id, const std::string& subject,
                const std::function<CheckOutcome(const PluginRun&)>& check,
                const std::function<void(CheckOutcome&, const std::vector<CheckDeclaration>&)>& withhold) {
  const PluginInfo& plugin = prepared.loaded->info;
  CallResult result;
  std::string why = prepared.failure;
  if (prepared.run != nullptr) {
    why = fault_of([&] {
      result.outcome = check(*prepared.run);
      const std::string breach = contract_breach(result.outcome, prepared.loaded->plugin->checks(), panel_id);
      if (!breach.empty()) throw std::runtime_error(breach);
      withhold(result.outcome, prepared.loaded->plugin->checks());
    });
    if (!why.empty()) result.failure = "plugin '" + plugin.id + "' failed on " + subject + ": " + why;
  }
  if (!why.empty()) result.outcome = {{finding_of_failure(plugin, panel_id, "the plugin failed: " + why)}, {}};
  return result;
}

std::vector<Prepared> prepare(const Project& project, const Settings& settings,
                              const std::vector<LoadedPlugin>& plugins, Results& results) {
  std::vector<Prepared> prepared;
  for (const LoadedPlugin& loaded : plugins) {
    Prepared one{&loaded, nullptr, {}};
    one.failure = fault_of([&] {
      one.run = loaded.plugin->prepare(project, settings);
      if (one.run == nullptr) throw std::runtime_error("it prepared nothing");
      std::vector<InputProblem> problems = one.run->problems();
      std::move(problems.begin(), problems.end(), std::back_inserter(results.problems));
    });
    if (!one.failure.empty()) {
      one.run = nullptr;
      results.failures.push_back("plugin '" + loaded.info.id + "' could not start on the project: " + one.failure);
    }
    prepared.push_back(std::move(one));
  }
  return prepared;
}

std::string subject_of(const Panel& panel) {
  return "panel '" + panel.mark + "'";
}

template <typename T>
void append(std::vector<T>& to, std::vector<T> from) {
  std::move(from.begin(), from.end(), std::back_inserter(to));
}

PanelCalls run_panel(const Panel& panel, const std::vector<Prepared>& plugins, const WithheldClaims& claims,
                     FindingRecorder& recorder) {
  PanelCalls calls;
  for (const Prepared& plugin : plugins) {
    CallResult result = call(
        plugin, panel.global_id, subject_of(panel), [&](const PluginRun& run) { return run.check_panel(panel); },
        [&](CheckOutcome& outcome, const auto& checks) { claims.withhold(outcome, checks, panel); });
    std::vector<Finding>& findings = result.outcome.findings;
    std::stable_sort(findings.begin(), findings.end(),
                     [](const Finding& a, const Finding& b) { return a.check < b.check; });
    append(calls.findings, recorder.record_all(std::move(findings)));
    calls.ends.push_back(calls.findings.size());
    append(calls.not_applicable, std::move(result.outcome.not_applicable));
    if (!result.failure.empty()) calls.failures.push_back(std::move(result.failure));
  }
  calls.findings.shrink_to_fit();
  return calls;
}

std::vector<PanelCalls> run_panels(const Project& project, const std::vector<Prepared>& plugins,
                                   const WithheldClaims& claims, FindingRecorder& recorder, Progress& progress) {
  std::vector<PanelCalls> calls(project.panels.size());
  oneapi::tbb::parallel_for(std::size_t{0}, project.panels.size(), [&](std::size_t index) {
    calls[index] = run_panel(project.panels[index], plugins, claims, recorder);
    progress.advance(1);
  });
  return calls;
}

/// The rows of one output of the plugin, those of the panels first.
OutputTable rows_of(const OutputDeclaration& output, const PluginRun& run, const std::vector<PanelFindings>& panels,
                    const std::vector<Finding>& project_findings) {
  OutputTable table{output, {}};
  for (const PanelFindings& panel : panels) append(table.rows, run.panel_rows(output.file, panel));
  append(table.rows, run.project_rows(output.file, project_findings));
  return table;
}

/// An output that breaks its declaration keeps its head alone: a table of which part is wrong is not handed on.
void write_outputs(const Prepared& plugin, const std::vector<PanelFindings>& own,
                   const std::vector<Finding>& project_findings, Results& results) {
  for (const OutputDeclaration& output : plugin.loaded->outputs) {
    OutputTable table{output, {}};
    if (plugin.run != nullptr) {
      const std::string why = fault_of([&] {
        table = rows_of(output, *plugin.run, own, project_findings);
        if (const std::string breach = output_breach(table); !breach.empty()) throw std::runtime_error(breach);
      });
      if (!why.empty()) {
        table.rows.clear();
        results.failures.push_back("plugin '" + plugin.loaded->info.id + "' failed on its outputs: " + why);
      }
    }
    results.outputs.push_back(std::move(table));
  }
}

void run_project(const Prepared& plugin, const std::vector<PanelFindings>& own, const WithheldClaims& claims,
                 FindingRecorder& recorder, Results& results) {
  CallResult result = call(
      plugin, {}, "the project", [&](const PluginRun& run) { return run.check_project(own); },
      [&](CheckOutcome& outcome, const auto& checks) { claims.withhold(outcome, checks); });
  if (!result.failure.empty()) results.failures.push_back(std::move(result.failure));
  write_outputs(plugin, own, result.outcome.findings, results);
  append(results.project_findings, recorder.record_all(std::move(result.outcome.findings)));
  append(results.project_not_applicable, std::move(result.outcome.not_applicable));
}

/// Whole again, those of one plugin at a time: all of them at once would be a multiple of the export.
std::vector<PanelFindings> findings_of_plugin(const Project& project, const std::vector<PanelCalls>& calls,
                                              std::size_t plugin) {
  std::vector<PanelFindings> own(project.panels.size());
  for (std::size_t i = 0; i < own.size(); ++i) {
    own[i].panel = &project.panels[i];
    const std::size_t begin = plugin == 0 ? 0 : calls[i].ends[plugin - 1];
    for (std::size_t at = begin; at < calls[i].ends[plugin]; ++at) {
      own[i].findings.push_back(whole_finding(calls[i].findings[at]));
    }
  }
  return own;
}

}  // namespace

Results run_checks(const Project& project, const Settings& settings, const std::vector<LoadedPlugin>& plugins,
                   int threads, Progress& progress) {
  Results results;
  for (const LoadedPlugin& loaded : plugins) {
    results.plugins.push_back({loaded.info, loaded.plugin->checks(), loaded.file, loaded.data_dir});
  }
  const WithheldClaims claims(project, settings);
  results.withheld = claims.all();
  const std::vector<Prepared> prepared = prepare(project, settings, plugins, results);

  progress.begin("checking panels", project.panels.size());
  using oneapi::tbb::global_control;
  const int concurrency = threads > 0 ? threads : oneapi::tbb::this_task_arena::max_concurrency();
  const global_control limit(global_control::max_allowed_parallelism, static_cast<std::size_t>(concurrency));
  oneapi::tbb::task_arena arena(concurrency);
  FindingRecorder recorder;
  std::vector<PanelCalls> calls;
  arena.execute([&] { calls = run_panels(project, prepared, claims, recorder, progress); });
  for (PanelCalls& panel : calls) {
    append(results.failures, std::move(panel.failures));
    results.panel_not_applicable.push_back(std::move(panel.not_applicable));
  }

  progress.begin("checking the project", plugins.size());
  for (std::size_t plugin = 0; plugin < plugins.size(); ++plugin) {
    run_project(prepared[plugin], findings_of_plugin(project, calls, plugin), claims, recorder, results);
    progress.advance(1);
  }
  for (PanelCalls& panel : calls) results.panel_findings.push_back(std::move(panel.findings));
  return results;
}

}  // namespace panel_dossier
