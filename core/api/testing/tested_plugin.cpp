#include "core/api/testing/tested_plugin.h"

#include <dlfcn.h>

#include <algorithm>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

#include "core/api/kit.h"

namespace panel_dossier::testing {

namespace {

const PluginEntry& entry_of(const std::filesystem::path& shared_object) {
  const auto said = [] {
    const char* text = ::dlerror();
    return std::string(text == nullptr ? "no reason given" : text);
  };
  void* const handle = ::dlopen(shared_object.c_str(), RTLD_NOW | RTLD_LOCAL);
  if (handle == nullptr) throw std::runtime_error("cannot load " + shared_object.string() + ": " + said());
  const void* const symbol = ::dlsym(handle, "panel_dossier_plugin");
  if (symbol == nullptr) throw std::runtime_error(shared_object.string() + " is no plugin: " + said());
  return *static_cast<const PluginEntry*>(symbol);
}

}  // namespace

LoadedPlugin::LoadedPlugin(const std::filesystem::path& shared_object) {
  const PluginEntry& entry = entry_of(shared_object);
  // The layout first: with another one, the members behind it stand elsewhere.
  const bool fits =
      entry.layout == kEntryLayout && std::string_view(entry.kit) == kKitHash && std::string_view(entry.abi) == kAbi;
  if (!fits) throw std::runtime_error(shared_object.string() + " was built with another kit or compiler");
  std::filesystem::path data_dir = shared_object;
  data_dir.replace_extension();
  plugin_.reset(entry.create(data_dir));
  if (!plugin_) throw std::runtime_error(shared_object.string() + " makes no plugin");
}

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
    PanelFindings& own = findings.emplace_back(PanelFindings{&panel, {}});
    for (const Finding& finding : outcomes.panels.back().findings) own.findings.push_back(result_only(finding));
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
