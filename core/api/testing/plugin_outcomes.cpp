#include "core/api/testing/plugin_outcomes.h"

#include <algorithm>
#include <memory>
#include <stdexcept>

namespace panel_dossier::testing {

std::unique_ptr<PluginRun> prepared(const Plugin& plugin, const Project& project, const Settings& settings) {
  std::unique_ptr<PluginRun> run = plugin.prepare(project, settings);
  if (run == nullptr) throw std::runtime_error("it prepared nothing");
  return run;
}

PluginOutcomes outcomes_of(const Plugin& plugin, const Project& project, const Settings& settings) {
  const std::unique_ptr<PluginRun> run = prepared(plugin, project, settings);
  PluginOutcomes outcomes;
  std::vector<PanelFindings> findings;
  for (const Panel& panel : project.panels) {
    outcomes.panels.push_back(run->check_panel(panel));
    findings.push_back({&panel, outcomes.panels.back().findings});
  }
  outcomes.project = run->check_project(findings);
  return outcomes;
}

const CheckDeclaration* find_declaration(const Plugin& plugin, std::string_view check) {
  const std::vector<CheckDeclaration>& checks = plugin.checks();
  const auto found = std::find_if(checks.begin(), checks.end(),
                                  [check](const CheckDeclaration& declaration) { return declaration.id == check; });
  return found == checks.end() ? nullptr : &*found;
}

const Finding* find_finding(const CheckOutcome& outcome, std::string_view check) {
  const auto found = std::find_if(outcome.findings.begin(), outcome.findings.end(),
                                  [check](const Finding& finding) { return finding.check == check; });
  return found == outcome.findings.end() ? nullptr : &*found;
}

const NotApplicable* find_not_applicable(const CheckOutcome& outcome, std::string_view check) {
  const auto found = std::find_if(outcome.not_applicable.begin(), outcome.not_applicable.end(),
                                  [check](const NotApplicable& absent) { return absent.check == check; });
  return found == outcome.not_applicable.end() ? nullptr : &*found;
}

}  // namespace panel_dossier::testing
