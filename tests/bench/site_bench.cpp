// Deliveries and programme of 2 000 panels: loads, dates, storage, tables and drawings, from findings already made.
#include <benchmark/benchmark.h>

#include <random>
#include <string>
#include <vector>

#include "tests/quantities/delivery_site.h"

namespace {

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

constexpr int kPanels = 2000;
constexpr std::size_t kPanelsInStorey = 100;

/// Panels of several widths and heights on twenty storeys, one in seven load-bearing, one in five after another.
Project large_site() {
  std::mt19937 random(2000);
  Project project = numbered_project(kPanels);
  project.storeys.resize(kPanels / kPanelsInStorey);
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    Panel& panel = project.panels[i];
    panel.width_m.value = 1.2 + 0.3 * static_cast<double>(random() % 20);
    panel.height_m.value = 2.4 + 0.2 * static_cast<double>(random() % 8);
    panel.storey = i / kPanelsInStorey;
    panel.properties.add("Pset_WallCommon", "LoadBearing", {random() % 7 == 0, "", {}});
    if (i > 0 && random() % 5 == 0) set_after(panel, project.panels[random() % i].mark);
  }
  return project;
}

void deliveries_and_programme_of_2000_panels(benchmark::State& state) {
  const Project project = large_site();
  Settings settings = site_settings();
  settings.set("quantities.cranes", 3.0);
  settings.set("quantities.transport.lead_working_days", 1.0);
  std::vector<PanelFindings> panels;
  for (const Panel& panel : project.panels) {
    panels.push_back(
        {&panel, {mass(panel, project), centre_of_gravity(panel, project), erection_time(panel, settings)}});
  }
  std::vector<Finding> findings;
  for (auto _ : state) findings = site_findings(project, panels, settings);
  for (const Finding& finding : findings) {
    if (finding.verdict != Verdict::information) state.SkipWithError(finding.reason.c_str());
  }
  state.counters["loads"] = std::get<double>(findings.front().value);
  state.counters["working_days"] = std::get<double>(findings.back().value);
}
BENCHMARK(deliveries_and_programme_of_2000_panels)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
