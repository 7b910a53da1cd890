// What every plugin promises, tried on two cassettes with everything.
#include "core/api/testing/plugin_trial.h"

#include <catch2/catch.hpp>
#include <string>

#include "core/api/testing/loaded_plugin.h"
#include "tests/quantities/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::quantities::test;

TEST_CASE("no input can be taken away or spoilt unseen") {
  const LoadedPlugin plugin(PANEL_DOSSIER_PLUGIN_DIR "/quantities.so");
  TrialOptions options;
  options.figures_too = true;
  const TrialReport report = try_plugin(*plugin, sound_project(), sound_settings(), options);
  for (const std::string& fault : report.faults) FAIL_CHECK(fault);
  CHECK(report.findings > 30);
  CHECK(report.formulas > 30);
  CHECK(report.removals > 20);
  CHECK(report.spoilings > 20);
}
