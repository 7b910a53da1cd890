#include "core/pipeline/run.h"

#include <oneapi/tbb/global_control.h>
#include <oneapi/tbb/parallel_for.h>
#include <oneapi/tbb/task_arena.h>

#include <algorithm>
#include <exception>
#include <functional>
#include <iterator>
#include <map>
#include <memory>
#include <numeric>
#include <optional>
#include <set>
#include <stdexcept>
#include <string>
#include <utility>

#include "core/api/finding/contract.h"
#include "core/api/finding/withheld_claims.h"
#include "core/api/support/words.h"
#include "core/pipeline/heap.h"
#include "core/pipeline/worker/remote_plugin.h"

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
  std::size_t reused = 0;
  std::vector<Computed> computed;
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
  give_back_memory();  // what is free here would be copied into every process that uses it
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

/// The store as one run uses it.
class StoredRun {
 public:
  StoredRun(const Project& project, const Settings& settings, const std::vector<LoadedPlugin>& plugins,
            const EarlierResults& earlier)
      : project_(project), plugins_(plugins), earlier_(earlier), keys_(project, settings, plugins, earlier.files) {
    for (const LoadedPlugin& plugin : plugins) {
      last_.push_back(earlier.store.last_origin(earlier.project, plugin.info.id, {}));
    }
  }

  /// `panel` as in Computed, here and below.
  ResultKey key_of(std::size_t plugin, std::optional<std::size_t> panel) const {
    return panel ? keys_.of_panel(plugin, *panel) : keys_.of_project(plugin);
  }

  ResultStore& store() const { return earlier_.store; }

  /// What is new since the last build of this project; empty for a result that is the same and was only dropped.
  std::string why(std::size_t plugin, std::optional<std::size_t> panel, const ResultKey& key) const {
    if (!last_[plugin]) return "never computed before";
    const PluginKey& now = keys_.of_plugin(plugin);
    std::vector<std::string> news = changed_settings(last_[plugin]->settings, now.settings);
    const std::map<std::string, std::string> before(last_[plugin]->parts.begin(), last_[plugin]->parts.end());
    for (const KeyPart& part : now.parts) {
      const auto old = before.find(part.name);
      const bool is_new = old == before.end() || old->second != to_hex(part.digest);
      if (is_new && part.name != kSettingsPart) news.push_back(part.name);
    }
    const auto own = earlier_.store.last_origin(earlier_.project, id(plugin), name_of(panel));
    if (!own) {
      news.emplace_back(panel ? "a new panel" : "never computed before");
    } else if (own->parts.empty() || own->parts.front().second != to_hex(key.own)) {
      news.emplace_back(panel ? "the panel" : "a panel or a register");
    }
    return joined(news, ", ");
  }

  void remember(std::size_t plugin, std::optional<std::size_t> panel, const ResultKey& key) const {
    earlier_.store.set_last_origin(earlier_.project, id(plugin), name_of(panel),
                                   {{{"the panel", to_hex(key.own)}}, {}});
  }

  void remember_plugins() const {
    for (std::size_t plugin = 0; plugin < plugins_.size(); ++plugin) {
      const PluginKey& now = keys_.of_plugin(plugin);
      StoredOrigin origin{{}, now.settings};
      for (const KeyPart& part : now.parts) origin.parts.emplace_back(part.name, to_hex(part.digest));
      earlier_.store.set_last_origin(earlier_.project, id(plugin), {}, origin);
    }
  }

 private:
  const Project& project_;
  const std::vector<LoadedPlugin>& plugins_;
  const EarlierResults& earlier_;
  ResultKeys keys_;
  std::vector<std::optional<StoredOrigin>> last_;  ///< of each plugin

  const std::string& id(std::size_t plugin) const { return plugins_[plugin].info.id; }

  /// No GlobalId has that form.
  std::string name_of(std::optional<std::size_t> panel) const {
    return panel ? project_.panels[*panel].global_id : "the project";
  }

  static std::vector<std::string> changed_settings(const std::map<std::string, std::string>& before,
                                                   const std::map<std::string, std::string>& now) {
    std::vector<std::string> changed;
    const auto tell = [&](const std::string& key, const std::string& what) {
      changed.push_back("setting " + key + ": " + what);
    };
    for (const auto& [key, value] : now) {
      const auto old = before.find(key);
      if (old == before.end()) {
        tell(key, "new, " + value);
      } else if (old->second != value) {
        tell(key, joined({old->second, value}, " -> "));
      }
    }
    for (const auto& [key, value] : before) {
      if (!now.contains(key)) tell(key, "gone, was " + value);
    }
    return changed;
  }
};

/// What a run needs for each panel.
struct PanelRunner {
  const Project& project;
  const std::vector<Prepared>& plugins;
  const WithheldClaims& claims;
  FindingRecorder& recorder;
  const StoredRun* stored;  ///< null without a store

  PanelCalls run(std::size_t index) const {
    PanelCalls calls;
    for (std::size_t plugin = 0; plugin < plugins.size(); ++plugin) run_plugin(plugin, index, calls);
    calls.findings.shrink_to_fit();
    return calls;
  }

 private:
  void run_plugin(std::size_t plugin, std::size_t index, PanelCalls& calls) const {
    if (stored == nullptr) {
      take(compute(plugin, index, calls), calls);
      return;
    }
    const ResultKey key = stored->key_of(plugin, index);
    std::optional<StoredOutcome> outcome = stored->store().find(key, recorder);
    if (outcome) {
      ++calls.reused;
    } else {
      calls.computed.push_back({plugins[plugin].loaded->info.id, index, stored->why(plugin, index, key)});
      const std::size_t failures = calls.failures.size();
      outcome = compute(plugin, index, calls);
      if (calls.failures.size() == failures && plugins[plugin].run != nullptr) stored->store().put(key, *outcome);
    }
    stored->remember(plugin, index, key);
    take(std::move(*outcome), calls);
  }

  StoredOutcome compute(std::size_t plugin, std::size_t index, PanelCalls& calls) const {
    const Panel& panel = project.panels[index];
    CallResult result = call(
        plugins[plugin], panel.global_id, subject_of(panel),
        [&](const PluginRun& run) { return run.check_panel(panel); },
        [&](CheckOutcome& outcome, const auto& checks) { claims.withhold(outcome, checks, panel); });
    std::vector<Finding>& findings = result.outcome.findings;
    std::stable_sort(findings.begin(), findings.end(),
                     [](const Finding& a, const Finding& b) { return a.check < b.check; });
    if (!result.failure.empty()) calls.failures.push_back(std::move(result.failure));
    return {recorder.record_all(std::move(findings)), std::move(result.outcome.not_applicable)};
  }

  static void take(StoredOutcome outcome, PanelCalls& calls) {
    append(calls.findings, std::move(outcome.findings));
    calls.ends.push_back(calls.findings.size());
    append(calls.not_applicable, std::move(outcome.not_applicable));
  }
};

/// On `threads` threads, 0: as many as the machine has; one entry for each of `panels`.
std::vector<PanelCalls> run_panels(const PanelRunner& runner, const std::vector<std::size_t>& panels, int threads,
                                   Progress& progress) {
  progress.begin("checking panels", panels.size());
  using oneapi::tbb::global_control;
  const int concurrency = threads > 0 ? threads : oneapi::tbb::this_task_arena::max_concurrency();
  const global_control limit(global_control::max_allowed_parallelism, static_cast<std::size_t>(concurrency));
  oneapi::tbb::task_arena arena(concurrency);
  std::vector<PanelCalls> calls(panels.size());
  arena.execute([&] {
    oneapi::tbb::parallel_for(std::size_t{0}, calls.size(), [&](std::size_t at) {
      calls[at] = runner.run(panels[at]);
      progress.advance(1);
    });
  });
  return calls;
}

/// Takes over what is told of the calls beside their findings.
void tell_of(PanelCalls& panel, Results& results) {
  append(results.failures, std::move(panel.failures));
  results.reused += panel.reused;
  append(results.computed, std::move(panel.computed));
}

/// The findings of one plugin, made whole panel by panel: those of all panels at once are a multiple of the export.
class PluginFindings {
 public:
  PluginFindings(const Project& project, const std::vector<PanelCalls>& calls, std::size_t plugin)
      : project_(project), calls_(calls), plugin_(plugin) {}

  std::size_t size() const { return calls_.size(); }

  PanelFindings of(std::size_t panel) const { return of(panel, whole_finding); }
  PanelFindings results_of(std::size_t panel) const { return of(panel, recorded_result); }

 private:
  PanelFindings of(std::size_t panel, Finding (*restore)(const RecordedFinding&)) const {
    const PanelCalls& calls = calls_[panel];
    PanelFindings own{&project_.panels[panel], {}};
    for (std::size_t at = plugin_ == 0 ? 0 : calls.ends[plugin_ - 1]; at < calls.ends[plugin_]; ++at) {
      own.findings.push_back(restore(calls.findings[at]));
    }
    return own;
  }

  const Project& project_;
  const std::vector<PanelCalls>& calls_;
  std::size_t plugin_;
};

/// The rows of one output of the plugin, those of the panels first.
OutputTable rows_of(const OutputDeclaration& output, const PluginRun& run, const PluginFindings& panels,
                    const std::vector<Finding>& project_findings) {
  OutputTable table{output, {}};
  for (std::size_t i = 0; i < panels.size(); ++i) append(table.rows, run.panel_rows(output.file, panels.of(i)));
  append(table.rows, run.project_rows(output.file, project_findings));
  return table;
}

/// An output that breaks its declaration keeps its head alone: a table of which part is wrong is not handed on.
void write_outputs(const Prepared& plugin, const PluginFindings& own, const std::vector<Finding>& project_findings,
                   Results& results) {
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

/// A run in this process asks for all findings at once.
CheckOutcome check_project(const PluginRun& run, const PluginFindings& own) {
  const auto findings_of = [&own](std::size_t panel) { return own.results_of(panel); };
  if (const auto* remote = dynamic_cast<const PanelwiseRun*>(&run)) {
    return remote->check_project_panelwise(own.size(), findings_of);
  }
  std::vector<PanelFindings> all;
  all.reserve(own.size());
  for (std::size_t i = 0; i < own.size(); ++i) all.push_back(findings_of(i));
  return run.check_project(all);
}

/// What a run needs for the project as a whole.
struct ProjectRunner {
  const std::vector<Prepared>& plugins;
  const WithheldClaims& claims;
  FindingRecorder& recorder;
  const StoredRun* stored;  ///< null without a store

  void run(std::size_t plugin, const PluginFindings& own, Results& results) const {
    StoredOutcome outcome = outcome_of(plugin, own, results);
    std::vector<Finding> findings;
    for (const RecordedFinding& finding : outcome.findings) findings.push_back(whole_finding(finding));
    write_outputs(plugins[plugin], own, findings, results);
    append(results.project_findings, std::move(outcome.findings));
    append(results.project_not_applicable, std::move(outcome.not_applicable));
  }

 private:
  /// Where anything has failed on a panel the findings follow from that too, which no key tells.
  StoredOutcome outcome_of(std::size_t plugin, const PluginFindings& own, Results& results) const {
    if (stored == nullptr || !results.failures.empty()) return compute(plugin, own, results);
    const ResultKey key = stored->key_of(plugin, {});
    std::optional<StoredOutcome> outcome = stored->store().find(key, recorder);
    if (outcome) {
      ++results.reused_of_project;
    } else {
      results.computed.push_back({plugins[plugin].loaded->info.id, {}, stored->why(plugin, {}, key)});
      outcome = compute(plugin, own, results);
      if (results.failures.empty()) stored->store().put(key, *outcome);
    }
    stored->remember(plugin, {}, key);
    return std::move(*outcome);
  }

  StoredOutcome compute(std::size_t plugin, const PluginFindings& own, Results& results) const {
    CallResult result = call(
        plugins[plugin], {}, "the project", [&](const PluginRun& run) { return check_project(run, own); },
        [&](CheckOutcome& outcome, const auto& checks) { claims.withhold(outcome, checks); });
    if (!result.failure.empty()) results.failures.push_back(std::move(result.failure));
    return {recorder.record_all(std::move(result.outcome.findings)), std::move(result.outcome.not_applicable)};
  }
};

}  // namespace

Results run_checks(const Project& project, const Settings& settings, const std::vector<LoadedPlugin>& plugins,
                   int threads, Progress& progress, const std::optional<EarlierResults>& earlier) {
  Results results;
  for (const LoadedPlugin& loaded : plugins) {
    results.plugins.push_back({loaded.info, loaded.plugin->checks(), loaded.file, loaded.data_dir});
  }
  const WithheldClaims claims(project, settings);
  results.withheld = claims.all();
  std::vector<Prepared> prepared = prepare(project, settings, plugins, results);

  FindingRecorder recorder;
  std::optional<StoredRun> stored;
  if (earlier) stored.emplace(project, settings, plugins, *earlier);
  const PanelRunner runner{project, prepared, claims, recorder, stored ? &*stored : nullptr};
  std::vector<std::size_t> all(project.panels.size());
  std::iota(all.begin(), all.end(), std::size_t{0});
  std::vector<PanelCalls> calls = run_panels(runner, all, threads, progress);
  for (PanelCalls& panel : calls) {
    tell_of(panel, results);
    results.panel_not_applicable.push_back(std::move(panel.not_applicable));
  }

  progress.begin("checking the project", plugins.size());
  const ProjectRunner project_runner{prepared, claims, recorder, stored ? &*stored : nullptr};
  for (std::size_t plugin = 0; plugin < plugins.size(); ++plugin) {
    project_runner.run(plugin, PluginFindings(project, calls, plugin), results);
    prepared[plugin].run = nullptr;  // with its processes, where it has some
    progress.advance(1);
  }
  if (stored) stored->remember_plugins();
  for (PanelCalls& panel : calls) results.panel_findings.push_back(std::move(panel.findings));
  return results;
}

std::vector<std::size_t> panels_of_share(const Project& project, const Share& share) {
  std::vector<std::size_t> by_cost(project.panels.size());
  std::iota(by_cost.begin(), by_cost.end(), std::size_t{0});
  const auto cost = [&](std::size_t panel) { return project.panels[panel].parts.size() + 1; };
  std::stable_sort(by_cost.begin(), by_cost.end(), [&](std::size_t a, std::size_t b) { return cost(a) > cost(b); });
  // The dearest first, each to the share that has least.
  std::set<std::pair<std::size_t, std::size_t>> shares;  // cost so far and number
  for (std::size_t number = 1; number <= share.of; ++number) shares.emplace(0, number);
  std::vector<std::size_t> own;
  for (const std::size_t panel : by_cost) {
    const auto [so_far, number] = *shares.begin();
    shares.erase(shares.begin());
    shares.emplace(so_far + cost(panel), number);
    if (number == share.number) own.push_back(panel);
  }
  std::sort(own.begin(), own.end());
  return own;
}

Results run_share(const Project& project, const Settings& settings, const std::vector<LoadedPlugin>& plugins,
                  const Share& share, int threads, Progress& progress, const EarlierResults& earlier) {
  Results results;
  const WithheldClaims claims(project, settings);
  const std::vector<Prepared> prepared = prepare(project, settings, plugins, results);
  FindingRecorder recorder;
  const StoredRun stored(project, settings, plugins, earlier);
  const PanelRunner runner{project, prepared, claims, recorder, &stored};
  for (PanelCalls& panel : run_panels(runner, panels_of_share(project, share), threads, progress)) {
    tell_of(panel, results);
  }
  return results;
}

}  // namespace panel_dossier
