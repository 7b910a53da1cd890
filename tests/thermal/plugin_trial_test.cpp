// What every plugin promises, tried on the timber panel with a window.
#include "core/api/testing/plugin_trial.h"

#include <catch2/catch.hpp>
#include <string>

#include "core/api/testing/properties.h"
#include "core/api/testing/tested_plugin.h"
#include "tests/thermal/window_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

TEST_CASE("The thermal plugin keeps what every plugin promises") {
  const LoadedPlugin plugin(PANEL_DOSSIER_PLUGIN_DIR "/thermal.so");
  HeatedPanel model = panel_with_window();
  model.settings.set("thermal.condensate_limit", std::string("absorbent plane"));
  model.settings.set("thermal.punctured_vapour_control_sd_m", 0.5);
  TrialOptions options;
  // Temperatures of cold air have either sign.
  options.either_sign = {"thermal.external_temperature_c", "thermal.internal_temperature_c"};
  // The schema of the settings lists the uses; limits tell dwellings from all others.
  options.free_text = {"project.use"};
  const TrialReport report = try_plugin(*plugin, model.project, model.settings, options);
  for (const std::string& fault : report.faults) FAIL_CHECK(fault);
  CHECK(report.findings > 15);
  CHECK(report.formulas > 30);
  CHECK(report.removals > 5);
  CHECK(report.spoilings > 5);
}
