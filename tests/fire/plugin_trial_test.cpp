// What every plugin promises, tried on panels that use most of what fire reads.
#include "core/api/testing/plugin_trial.h"

#include <catch2/catch.hpp>

#include "core/api/testing/tested_plugin.h"
#include "tests/fire/tested_panel.h"
#include "tests/support/cassette_settings.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

TEST_CASE("The plugin keeps its promises on a panel with everything given") {
  static const LoadedPlugin plugin(PANEL_DOSSIER_PLUGIN_DIR "/fire.so");
  Project project = tested_load_bearing_panel();
  add_window(project);
  Settings settings = cassette_settings();
  settings.set("building.sprinklers", true);
  settings.set("building.boundary_distance_m", 6.0);
  settings.set("building.ground_level_m", 0.0);
  project.panels.front().storey = 0;
  TrialOptions options;
  options.free_text = {"Panel_FireEvidence.DocumentId"};
  const TrialReport report = try_plugin(*plugin, project, settings, options);
  for (const std::string& fault : report.faults) FAIL_CHECK(fault);
  CHECK(report.formulas > 30);
  CHECK(report.removals > 20);
  CHECK(report.spoilings > 20);
}
