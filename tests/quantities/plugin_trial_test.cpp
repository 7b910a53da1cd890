// What every plugin promises, tried on two cassettes with everything.
#include "core/api/testing/plugin_trial.h"

#include <catch2/catch.hpp>
#include <string>

#include "core/api/testing/tested_plugin.h"
#include "tests/quantities/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::quantities::test;

namespace {

/// Cassettes with a window that the factory fits, insulation, a membrane and drilled rails.
Project full_project() {
  Project project = sound_project();
  for (Panel& panel : project.panels) {
    panel.parts.push_back(box(PartKind::insulation, "slab", 1, {0.05, 0.0, kStud_m}, {0.5, kDepth_m, 1.1}));
    panel.parts.push_back(box(PartKind::membrane, "film", 1, {0.0, kDepth_m + kBoard_m, 0.0}, {2.4, 0.001, 2.4}));
    for (Part& part : panel.parts) {
      if (part.kind == PartKind::rail) state(part.properties, "Panel_Member", "Holes", std::string("20@300"));
    }
    state(panel.properties, "Panel_Identity", "Batch", std::string("W14"));
    Opening opening;
    opening.name = "opening";
    opening.x_min_m = 0.7;
    opening.x_max_m = 1.7;
    opening.z_min_m = 0.8;
    opening.z_max_m = 1.8;
    opening.filling_entity = "IfcWindow";
    opening.filling_name = "window";
    state(opening.filling_properties, "Panel_Filling", "FactoryFitted", true);
    state(opening.filling_properties, "Panel_Filling", "Mass", 30.0);
    panel.openings.push_back(opening);
  }
  return project;
}

/// With every setting that may be left out.
Settings full_settings() {
  Settings result = sound_settings();
  result.set("quantities.opening_deduction_over_m2", 1.5);
  result.set("quantities.stock_defect_allowance_m", 0.01);
  result.set("quantities.insulation_oversize_m", 0.005);
  result.set("quantities.sheet_layouts_listed", 10.0);
  result.set("quantities.sheet_sizes_m.0.may_turn", true);
  result.set("quantities.transport.side_balance_limit", 0.5);
  result.set("quantities.transport.lead_working_days", 1.0);
  add_rate(result, 3, "windows and doors, factory fitted", "kg", 12.0);
  return result;
}

}  // namespace

TEST_CASE("no input can be taken away or spoilt unseen") {
  const LoadedPlugin plugin(PANEL_DOSSIER_PLUGIN_DIR "/quantities.so");
  TrialOptions options;
  options.figures_too = true;
  const TrialReport report = try_plugin(*plugin, full_project(), full_settings(), options);
  for (const std::string& fault : report.faults) FAIL_CHECK(fault);
  CHECK(report.findings > 30);
  CHECK(report.formulas > 30);
  CHECK(report.removals > 20);
  CHECK(report.spoilings > 20);
}
