// What a plugin's reads.json says it does not read must not change its findings: the store would keep stale ones.
#include <catch2/catch.hpp>
#include <cstddef>
#include <filesystem>
#include <string>

#include "core/pipeline/byte_form/finding_fields.h"
#include "core/pipeline/store/result_keys.h"
#include "tests/consistency/wrong_project.h"

using namespace panel_dossier;
using namespace panel_dossier::consistency;

namespace {

constexpr std::size_t kSubject = 0;

std::string findings_as_bytes(const Results& results) {
  ByteWriter writer;
  for (const RecordedFinding& finding : results.panel_findings.at(kSubject)) writer(whole_finding(finding));
  writer(results.panel_not_applicable.at(kSubject));
  return writer.take();
}

PanelRecord rejected(const std::string& table) {
  PanelRecord record;
  record.table = table;
  record.day = "2026-02-03";
  record.what = "rejected";
  record.values = {{"result", std::string("REJECTED"), ""}, {"material", std::string("wool"), ""}};
  return record;
}

void change_records(Panel& panel) {
  for (const char* table : {"as_built", "inspections", "batches", "deliveries", "installation", "air_tests",
                            "weather_exposure", "in_use"}) {
    panel.records.push_back(rejected(table));
  }
  panel.batches.clear();
}

/// It stays where something stands, so that indices hold, but nothing else of it does.
void change_model(Panel& panel) {
  Panel other;
  other.global_id = panel.global_id;
  other.mark = panel.mark;
  other.building = panel.building;
  other.width_m = panel.width_m;
  other.height_m = panel.height_m;
  other.frame = panel.frame;
  other.frame.origin.x += 40.0;
  other.width_m.value *= 2.0;
  panel = other;
}

void change_registers(Project& project) {
  project.deliveries.clear();
  project.batches = {{"B-1", "wool", {"stud"}, {"D-1"}, {kSubject}}};
  project.records.push_back(rejected("air_tests"));
  project.stray_records.push_back({"mark 'X'", rejected("inspections")});
}

void look_for_undeclared_reads(const std::string& plugin) {
  const PluginReads reads = read_plugin_reads(std::filesystem::path(PANEL_DOSSIER_PLUGIN_DIR) / plugin / "reads.json");
  const Outcome sound = outcome_of({}, plugin);
  REQUIRE(sound.project.panels.size() > 1);
  Project changed = sound.project;
  for (std::size_t i = 0; i < changed.panels.size(); ++i) {
    if (i == kSubject) continue;
    if (reads.other_panels != PluginReads::OtherPanels::all) change_records(changed.panels[i]);
    if (reads.other_panels == PluginReads::OtherPanels::none) change_model(changed.panels[i]);
  }
  if (!reads.registers) change_registers(changed);
  CHECK(findings_as_bytes(results_of(changed, sound.settings, plugin)) == findings_as_bytes(sound.results));
}

}  // namespace

TEST_CASE("Each plugin's checks of panels read no more than its reads.json says") {
  for (const char* plugin : {"carbon", "fire", "quantities", "structural", "thermal"}) {
    INFO(plugin);
    look_for_undeclared_reads(plugin);
  }
}
