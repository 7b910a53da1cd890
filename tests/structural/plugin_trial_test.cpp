// What every plugin promises, tried on a panel that every structural check has something to say about.
#include "core/api/testing/plugin_trial.h"

#include <catch2/catch.hpp>

#include "core/api/testing/tested_plugin.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/sound_project.h"
#include "tests/structural/windowed_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

const Plugin& structural_plugin() {
  static const LoadedPlugin plugin(PANEL_DOSSIER_PLUGIN_DIR "/structural.so");
  return *plugin;
}

TrialOptions options() {
  TrialOptions options;
  // The crane may stand anywhere.
  options.either_sign = {"structural.crane.x_m", "structural.crane.y_m"};
  return options;
}

void try_on(const Project& project, const Settings& settings) {
  const TrialReport report = try_plugin(structural_plugin(), project, settings, options());
  for (const std::string& fault : report.faults) FAIL_CHECK(fault);
  CHECK(report.findings > 10);
  CHECK(report.formulas > 100);
  CHECK(report.removals > 50);
  CHECK(report.spoilings > 50);
}

}  // namespace

TEST_CASE("The plugin keeps its promises on a bracing panel with everything given") {
  try_on(with_drawn_members(sound_project()), sound_settings());
}

TEST_CASE("The plugin keeps its promises where persons lean on the panel and sheets work with the studs") {
  Project project = sound_project();
  Settings settings = sound_settings();
  make_barrier()(project, settings);
  set_setting("structural.composite_sheathing", std::string("annex B"))(project, settings);
  try_on(with_drawn_members(project), settings);
}

TEST_CASE("The plugin keeps its promises on a panel with a window under calculated wind") {
  Project project = project_with_window();
  make_hoistable(project);
  Settings settings = sound_settings();
  drop_of_panels("Panel_Structure.DesignWindPressure")(project, settings);
  try_on(with_drawn_members(project), settings);
}
