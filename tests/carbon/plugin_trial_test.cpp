// What every plugin promises, tried on two declared panels, and what this one tells of files.
#include "core/api/testing/plugin_trial.h"

#include <catch2/catch.hpp>
#include <string>

#include "core/api/testing/tested_plugin.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

const Plugin& carbon_plugin() {
  static const LoadedPlugin plugin(PANEL_DOSSIER_PLUGIN_DIR "/carbon.so");
  return *plugin;
}

/// Names of declared figures of global warming, which may have either sign.
std::vector<std::string> figures_of_gwp() {
  std::vector<std::string> names;
  for (const CheckDeclaration& check : carbon_plugin().checks()) {
    for (const CheckInput& input : check.inputs) {
      if (input.name.find(".Gwp") != std::string::npos) names.push_back(input.name);
    }
  }
  return names;
}

}  // namespace

TEST_CASE("no input can be taken away or spoilt unseen") {
  Project project = two_declared_panels();
  project.panels[1].type = "light";
  Settings settings = declared_settings();
  DeclaredPanel model;
  model.set_target(1, "A-C", "every panel", 100.0);
  for (const auto& [key, value] : model.settings.all()) settings.set(key, value);
  TrialOptions options;
  options.figures_too = true;
  options.either_sign = figures_of_gwp();
  options.free_text = {"carbon.targets.*.name", "carbon.targets.*.source"};
  const TrialReport report = try_plugin(carbon_plugin(), project, settings, options);
  for (const std::string& fault : report.faults) FAIL_CHECK(fault);
  CHECK(report.findings > 30);
  CHECK(report.formulas > 40);
  // Most inputs are optional: a file stands in for what the export does not state.
  CHECK(report.removals > 10);
  CHECK(report.spoilings > 20);
}

TEST_CASE(
    "what is wrong with a file of a declaration is told with its line, and no table of another discipline has rows") {
  Project project = declared_project();
  Settings settings = declared_settings();
  declare_by_file("GWP-fossil,A1-A3,a quarter,kg CO2e\n")(project, settings);
  const auto run = carbon_plugin().prepare(project, settings);
  const auto problems = run->problems();
  REQUIRE(problems.size() == 1);
  CHECK(problems.front().file == "evidence/EPD-2.csv");
  CHECK(problems.front().line == 2);
  CHECK(problems.front().message == "declaration: 'a quarter' is not a number; its content is not used");
  CHECK(problems.front().advice == "write it with a decimal point");
  CHECK(run->panel_rows("quantities.csv", {&project.panels.front(), {}}).empty());
  CHECK(run->project_rows("quantities.csv", {}).empty());
}
