// What a plugin's reads.json says it does not read must not change its findings: the store would keep stale ones.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstddef>
#include <filesystem>
#include <string>
#include <variant>
#include <vector>

#include "core/pipeline/byte_form/finding_fields.h"
#include "core/pipeline/store/project_fields.h"
#include "core/pipeline/store/result_keys.h"
#include "tests/consistency/wrong_project.h"
#include "tests/support/sample_panels.h"

using namespace panel_dossier;
using namespace panel_dossier::consistency;

namespace {

constexpr std::size_t kSubject = 0;

std::string findings_as_bytes(const Results& results, std::size_t panel) {
  ByteWriter writer;
  for (const RecordedFinding& finding : results.panel_findings.at(panel)) writer(whole_finding(finding));
  writer(results.panel_not_applicable.at(panel));
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
  CHECK(findings_as_bytes(results_of(changed, sound.settings, plugin), kSubject) ==
        findings_as_bytes(sound.results, kSubject));
}

Property another(const Property& property) {
  Property changed = property;
  if (auto* number = std::get_if<double>(&changed.value)) *number *= 3.0;
  if (auto* logical = std::get_if<bool>(&changed.value)) *logical = !*logical;
  if (auto* text = std::get_if<std::string>(&changed.value)) text->insert(0, "9");
  return changed;
}

/// What is said of the panel itself, but for the properties of those names: gone, or another.
void change_claims(Panel& panel, const std::vector<std::string>& read, bool gone) {
  Properties properties;
  for (const auto& [name, property] : panel.properties.all()) {
    const bool is_read = std::find(read.begin(), read.end(), name) != read.end();
    if (gone && !is_read) continue;
    const std::size_t dot = name.find('.');
    properties.add(name.substr(0, dot), name.substr(dot + 1), is_read ? property : another(property));
  }
  panel.properties = properties;
  panel.classifications = {"another"};
  panel.evidence.clear();
  panel.contradictions = {{"layers", "contradict one another"}};
}

/// Changes what is said of every second panel, and looks whether the findings of the others stay.
void look_for_claims_read(const std::string& plugin, const Project& project, const Settings& settings) {
  const PluginReads reads = read_plugin_reads(std::filesystem::path(PANEL_DOSSIER_PLUGIN_DIR) / plugin / "reads.json");
  REQUIRE(reads.other_panels == PluginReads::OtherPanels::bodies);
  const Results sound = results_of(project, settings, plugin);
  for (const std::size_t first : {0U, 1U}) {
    for (const bool gone : {true, false}) {
      Project changed = project;
      for (std::size_t i = first; i < changed.panels.size(); i += 2) {
        change_claims(changed.panels[i], reads.other_properties, gone);
      }
      const Results results = results_of(changed, settings, plugin);
      bool any = false;
      for (std::size_t i = 0; i < project.panels.size(); ++i) {
        const bool same = findings_as_bytes(results, i) == findings_as_bytes(sound, i);
        INFO("panel '" << project.panels[i].mark << "', " << (gone ? "gone" : "another"));
        if (i % 2 == first) any = any || !same;
        if (i % 2 != first) CHECK(same);
      }
      CHECK(any);
    }
  }
}

/// Those that no check of the plugin declares, weights aside: gone, or another.
Properties undeclared_changed(const Properties& before, const PropertyNames& declared, bool gone) {
  Properties after;
  for (const auto& [name, property] : before.all()) {
    const bool is_read = declared.holds(name) || is_weight(name);
    if (gone && !is_read) continue;
    const std::size_t dot = name.find('.');
    after.add(name.substr(0, dot), name.substr(dot + 1), is_read ? property : another(property));
  }
  for (const auto& [name, withheld] : before.withheld()) {
    if (!declared.holds(name) && !is_weight(name)) continue;
    const std::size_t dot = name.find('.');
    after.add(name.substr(0, dot), name.substr(dot + 1), withheld.property);
    after.withhold(name, withheld.why);
  }
  return after;
}

void change_undeclared_properties(Panel& panel, const PropertyNames& declared, bool gone) {
  panel.properties = undeclared_changed(panel.properties, declared, gone);
  for (Layer& layer : panel.layers) layer.properties = undeclared_changed(layer.properties, declared, gone);
  for (Part& part : panel.parts) part.properties = undeclared_changed(part.properties, declared, gone);
  for (Opening& opening : panel.openings) {
    opening.filling_properties = undeclared_changed(opening.filling_properties, declared, gone);
  }
}

std::string project_findings_as_bytes(const Results& results) {
  ByteWriter writer;
  for (const RecordedFinding& finding : results.project_findings) writer(whole_finding(finding));
  writer(results.project_not_applicable);
  return writer.take();
}

/// Of panels and of the project; a change of what they do declare must be noticed, or the test would see nothing.
void look_for_undeclared_properties_read(const std::string& plugin, const Project& project, const Settings& settings) {
  const PluginReads reads = read_plugin_reads(std::filesystem::path(PANEL_DOSSIER_PLUGIN_DIR) / plugin / "reads.json");
  REQUIRE_FALSE(reads.undeclared_properties);
  const Results sound = results_of(project, settings, plugin);
  PropertyNames declared(sound.plugins.at(0).checks);
  for (const std::string& name : reads.other_properties) declared.add(name);
  for (const bool gone : {true, false}) {
    Project changed = project;
    for (Panel& panel : changed.panels) change_undeclared_properties(panel, declared, gone);
    const Results results = results_of(changed, settings, plugin);
    for (std::size_t i = 0; i < project.panels.size(); ++i) {
      INFO("panel '" << project.panels[i].mark << "', " << (gone ? "gone" : "another"));
      const bool same = findings_as_bytes(results, i) == findings_as_bytes(sound, i);
      CHECK(same);
    }
    const bool same = project_findings_as_bytes(results) == project_findings_as_bytes(sound);
    CHECK(same);
  }
  Project bare = project;
  for (Panel& panel : bare.panels) change_undeclared_properties(panel, PropertyNames({}), true);
  const bool same = project_findings_as_bytes(results_of(bare, settings, plugin)) == project_findings_as_bytes(sound);
  CHECK_FALSE(same);
}

}  // namespace

TEST_CASE("Plugins that say so read no property of panels, layers, parts or openings but those that they declare",
          "[plain]") {
  const testing::TemporaryFolder folder;
  testing::write_sample_panels(folder, "N0-04,N0-05,N1-04,E0-01,E1-01");
  const Inputs inputs = read_inputs(testing::sample_panels_options(folder));
  REQUIRE_FALSE(inputs.refused());
  for (const char* plugin : {"quantities", "structural", "thermal"}) {
    INFO(plugin);
    look_for_undeclared_properties_read(plugin, *inputs.intake.project, inputs.settings);
  }
}

TEST_CASE("Checks that read the bodies of other panels read no more of what is said of them than they name",
          "[plain]") {
  // Side by side, one above the other, and round a corner.
  const testing::TemporaryFolder folder;
  testing::write_sample_panels(folder, "N0-04,N0-05,N0-06,N1-04,N1-05,N1-06,E0-01,E1-01");
  const Inputs inputs = read_inputs(testing::sample_panels_options(folder));
  REQUIRE_FALSE(inputs.refused());
  for (const char* plugin : {"fire", "structural", "thermal"}) {
    INFO(plugin);
    look_for_claims_read(plugin, *inputs.intake.project, inputs.settings);
  }
}

TEST_CASE("Each plugin's checks of panels read no more than its reads.json says", "[plain]") {
  for (const char* plugin : {"carbon", "fire", "quantities", "structural", "thermal"}) {
    INFO(plugin);
    look_for_undeclared_reads(plugin);
  }
}
