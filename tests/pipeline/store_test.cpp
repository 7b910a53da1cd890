#include <sqlite3.h>

#include <algorithm>
#include <atomic>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <functional>
#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/api/testing/temporary_folder.h"
#include "core/pipeline/byte_form/finding_fields.h"
#include "core/pipeline/run.h"
#include "tests/pipeline/plugins/example_plugin.h"

using namespace panel_dossier;

namespace {

/// Cites lines of the export as real checks do: of the panel, and of a material without GlobalId.
class CitingRun final : public example::ExampleRun {
 public:
  CitingRun(std::vector<CheckDeclaration> checks, const Project& project, std::atomic<int>& calls)
      : ExampleRun(std::move(checks)), project_(project), calls_(calls) {}

  CheckOutcome check_panel(const Panel& panel) const override {
    ++calls_;
    if (panel.name == "faulty") throw std::runtime_error("it is faulty");
    Finding one = width(panel);
    Input of_panel;
    of_panel.name = "width";
    of_panel.value = panel.width_m.value;
    of_panel.unit = "m";
    of_panel.origin = panel.width_m.origin;
    Input of_material = of_panel;
    of_material.origin = project_.materials.at(0).origin;
    one.inputs = {of_panel, of_material};
    return {{one, area(panel)}};
  }

 private:
  const Project& project_;
  std::atomic<int>& calls_;
};

class Citing final : public example::ExamplePlugin {
 public:
  explicit Citing(std::atomic<int>& calls) : ExamplePlugin("citing"), calls_(calls) {
    checks_[0].inputs = {optional_setting("citing.widest_m"), optional_property("Pset_A.Declared"),
                         optional_property("Pset_B.*")};
  }

  std::unique_ptr<PluginRun> prepare(const Project& project, const Settings& /*settings*/) const override {
    return std::make_unique<CitingRun>(checks_, project, calls_);
  }

 private:
  std::atomic<int>& calls_;
};

Origin line_of(const std::string& entity, const std::string& global_id, std::uint32_t line) {
  Origin origin;
  origin.entity = entity;
  origin.global_id = global_id;
  origin.line = line;
  return origin;
}

/// Every line moved by `shift`, as by a comment at the top of the export.
Project citing_project(std::uint32_t shift = 0) {
  Project project;
  project.materials.resize(1);
  project.materials[0].name = "wool";
  project.materials[0].origin = line_of("IfcMaterial", "", 5 + shift);
  for (std::uint32_t i = 0; i < 3; ++i) {
    Panel panel;
    panel.mark = "P" + std::to_string(i);
    panel.global_id = "id-" + panel.mark;
    panel.width_m = {3.0 + i, line_of("IfcWall", panel.global_id, 100 * (i + 1) + shift)};
    panel.height_m.value = 3.0;
    project.panels.push_back(panel);
  }
  return project;
}

class StoreOfTests {
 public:
  /// A run as a build makes it, with the store opened anew.
  Results run(const Project& project, const Settings& settings = {}, const std::string& files = "files") {
    calls_ = 0;
    ResultStore store(file());
    LoadedPlugin plugin;
    plugin.plugin = std::make_shared<Citing>(calls_);
    plugin.info = plugin.plugin->info();
    plugin.file = object_;
    plugin.data_dir = data_;
    NoProgress progress;
    Results results = run_checks(project, settings, {plugin}, 2, progress, EarlierResults{store, "out", sha256(files)});
    store.finish_build();
    warnings_ = store.take_warnings();
    return results;
  }

  void set_reads(const std::string& text) { folder_.write("data/reads.json", text); }
  void set_object(const std::string& text) { folder_.write("citing.so", text); }

  int calls() const { return calls_; }
  std::filesystem::path file() const { return folder_.path() / "results.store"; }
  const std::vector<std::string>& warnings() const { return warnings_; }

 private:
  testing::TemporaryFolder folder_;
  std::filesystem::path object_ = folder_.write("citing.so", "code");
  std::filesystem::path data_ = folder_.write("data/table.csv", "key,source\n").parent_path();
  std::atomic<int> calls_{0};
  std::vector<std::string> warnings_;
};

std::string all_findings(const Results& results) {
  ByteWriter writer;
  for (const auto& panel : results.panel_findings) {
    for (const RecordedFinding& finding : panel) writer(whole_finding(finding), finding.derivation->hash);
  }
  for (const RecordedFinding& finding : results.project_findings) writer(whole_finding(finding));
  writer(results.panel_not_applicable);
  return writer.take();
}

std::size_t panels_computed(const Results& results) {
  return static_cast<std::size_t>(std::count_if(results.computed.begin(), results.computed.end(),
                                                [](const Computed& one) { return one.panel.has_value(); }));
}

std::string findings_without_store(const Project& project) {
  std::atomic<int> calls{0};
  LoadedPlugin plugin;
  plugin.plugin = std::make_shared<Citing>(calls);
  plugin.info = plugin.plugin->info();
  NoProgress progress;
  return all_findings(run_checks(project, {}, {plugin}, 1, progress));
}

}  // namespace

TEST_CASE("What follows from the same inputs is computed once and comes back equal") {
  StoreOfTests store;
  const Results first = store.run(citing_project());
  CHECK(store.calls() == 3);
  CHECK(first.reused == 0);
  CHECK(panels_computed(first) == 3);
  CHECK(first.computed[0].why == "never computed before");
  const Results second = store.run(citing_project());
  CHECK(store.calls() == 0);
  CHECK(second.reused == 3);
  CHECK(second.computed.empty());
  CHECK(all_findings(second) == findings_without_store(citing_project()));
  CHECK(store.warnings().empty());
}

TEST_CASE("Lines that have moved in the export are those of the export at hand") {
  StoreOfTests store;
  store.run(citing_project());
  const Project moved = citing_project(17);
  const Results second = store.run(moved);
  CHECK(store.calls() == 0);
  CHECK(all_findings(second) == findings_without_store(moved));
  CHECK(whole_finding(second.panel_findings[1][1]).inputs[0].origin.line == 217);
  CHECK(whole_finding(second.panel_findings[1][1]).inputs[1].origin.line == 22);
}

TEST_CASE("A change of the panel costs that panel, one of what all share costs all, and each says why") {
  StoreOfTests store;
  store.set_reads(R"({"other_panels": "none", "registers": false, "undeclared_settings": true})");
  store.run(citing_project());

  Project wider = citing_project();
  wider.panels[1].width_m.value = 9.0;
  Results results = store.run(wider);
  CHECK(store.calls() == 1);
  REQUIRE(panels_computed(results) == 1);
  CHECK(results.computed[0].panel == 1);
  CHECK(results.computed[0].why == "the panel");
  CHECK(all_findings(results) == findings_without_store(wider));

  wider.materials[0].name = "another wool";
  CHECK(store.run(wider).computed.at(2).why == "building, materials or evidence");
  CHECK(store.run(wider, {}, "other files").computed.at(0).why == "files beside the export");
  Settings settings;
  settings.set("a.b", 1.0);
  CHECK(store.run(wider, settings, "other files").computed.at(0).why == "setting a.b: new, 1.0");
  settings.set("a.b", 2.5);
  CHECK(store.run(wider, settings, "other files").computed.at(0).why == "setting a.b: 1.0 -> 2.5");
  settings.withhold("a.b", "far off");
  CHECK(panels_computed(store.run(wider, settings, "other files")) == 3);
  store.set_object("other code");
  CHECK(store.run(wider, settings, "other files").computed.at(0).why == "the plugin");
  store.set_reads(R"({"registers": false})");
  CHECK_THAT(store.run(wider, settings, "other files").computed.at(0).why, Catch::Contains("the plugin's data tables"));
}

TEST_CASE("Without a word on what it reads, a plugin is asked again when any panel or register changes") {
  StoreOfTests store;
  store.run(citing_project());
  Project changed = citing_project();
  changed.panels[2].records.emplace_back();
  CHECK(panels_computed(store.run(changed)) == 3);
  changed.stray_records.emplace_back();
  CHECK(store.run(changed).computed.at(0).why == "registers");

  store.set_reads(R"({"other_panels": "models"})");
  store.run(changed);
  changed.panels[2].records.emplace_back();
  CHECK(panels_computed(store.run(changed)) == 1);
  changed.panels[2].name = "another";
  CHECK(store.run(changed).computed.at(0).why == "other panels");

  store.set_reads(R"({"other_panels": "bodies", "other_properties": ["Pset_A.Read", "Pset_A.Withheld"]})");
  store.run(changed);
  changed.panels[2].properties.add("Pset_A", "Other", {1.0, "", {}});
  CHECK(panels_computed(store.run(changed)) == 1);
  changed.panels[2].properties.add("Pset_A", "Read", {1.0, "", {}});
  CHECK(store.run(changed).computed.at(0).why == "other panels");
  changed.panels[2].properties.add("Pset_A", "Withheld", {1.0, "", {}});
  store.run(changed);
  changed.panels[2].properties.withhold("Pset_A.Withheld", "implausible");
  CHECK(store.run(changed).computed.at(0).why == "other panels");
  changed.panels[2].frame.origin.x += 1.0;
  CHECK(store.run(changed).computed.at(0).why == "other panels");
}

TEST_CASE("A setting that no check declares costs nothing where the plugin says so, one that a check declares does") {
  StoreOfTests store;
  store.set_reads(R"({"undeclared_settings": false})");
  store.run(citing_project());
  Settings settings;
  settings.set("another.plugin", 1.0);
  CHECK(store.run(citing_project(), settings).computed.empty());
  settings.set("citing.widest_m", 4.0);
  const Results computed = store.run(citing_project(), settings);
  CHECK(panels_computed(computed) == 3);
  REQUIRE_FALSE(computed.computed.empty());
  CHECK(computed.computed.front().why == "setting citing.widest_m: new, 4.0");
}

TEST_CASE("A property that no check declares costs nothing where the plugin says so") {
  StoreOfTests store;
  Project project = citing_project();
  project.panels[1].parts.resize(1);
  project.panels[1].openings.resize(1);
  store.set_reads(R"({"undeclared_properties": false, "undeclared_settings": false})");
  store.run(project);
  const Property said{1.0, "", line_of("IfcPropertySet", "", 77)};
  project.panels[1].properties.add("Pset_A", "Other", said);
  project.panels[1].parts[0].properties.add("Pset_A", "Other", said);
  project.panels[1].openings[0].filling_properties.add("Pset_A", "Other", said);
  project.panels[1].properties.withhold("Pset_A.Other", "implausible");
  CHECK(store.run(project).computed.empty());
  for (const char* set : {"Pset_A", "Pset_B"}) {
    project.panels[1].parts[0].properties.add(set, "Declared", said);
    CHECK(panels_computed(store.run(project)) == 3);
  }
  project.panels[1].parts[0].properties.withhold("Pset_A.Declared", "implausible");
  CHECK(panels_computed(store.run(project)) == 3);
  // Weights are read of any set.
  project.panels[1].parts[0].properties.add("Qto_A", "NetWeight", said);
  CHECK(panels_computed(store.run(project)) == 3);

  store.set_reads(
      R"({"other_panels": "bodies", "other_properties": ["Pset_A.Named"], "undeclared_properties": false})");
  store.run(project);
  project.panels[1].properties.add("Pset_A", "Named", said);
  CHECK(store.run(project).computed.at(0).why == "other panels");
  store.set_reads("{}");
  store.run(project);
  project.panels[1].parts[0].properties.add("Pset_A", "Another", said);
  CHECK(panels_computed(store.run(project)) == 3);
}

TEST_CASE("What is found of the project comes from the store while no panel, register or setting has changed") {
  StoreOfTests store;
  store.set_reads(R"({"other_panels": "none", "registers": false})");
  Results results = store.run(citing_project());
  CHECK(results.reused_of_project == 0);
  REQUIRE(results.computed.size() == 4);
  CHECK_FALSE(results.computed[3].panel.has_value());
  CHECK(results.computed[3].why == "never computed before");
  results = store.run(citing_project(17));
  CHECK(results.reused_of_project == 1);
  CHECK(results.computed.empty());
  CHECK(all_findings(results) == findings_without_store(citing_project(17)));

  Project changed = citing_project();
  changed.panels[2].width_m.value = 7.0;
  results = store.run(changed);
  CHECK(results.reused_of_project == 0);
  CHECK(results.computed.back().why == "a panel or a register");
  CHECK(all_findings(results) == findings_without_store(changed));
  changed.stray_records.emplace_back();
  results = store.run(changed);
  CHECK(panels_computed(results) == 0);
  REQUIRE(results.computed.size() == 1);
  CHECK(results.computed[0].why == "a panel or a register");
  Settings settings;
  settings.set("a.b", 1.0);
  CHECK(store.run(changed, settings).computed.back().why == "setting a.b: new, 1.0");
}

TEST_CASE("What is found of the project where a panel failed is not kept") {
  StoreOfTests store;
  Project project = citing_project();
  project.panels[1].name = "faulty";
  for (int night = 0; night < 2; ++night) {
    const Results results = store.run(project);
    CHECK(results.failures.size() == 1);
    CHECK(results.reused_of_project == 0);
    CHECK(results.project_findings.size() == 1);
  }
}

TEST_CASE("A file that is no store is set aside, whole, and a store is begun") {
  StoreOfTests store;
  std::ofstream(store.file()) << "a letter to the client";
  store.run(citing_project());
  REQUIRE(store.warnings().size() == 1);
  CHECK_THAT(store.warnings()[0], Catch::Contains("is set aside as"));
  std::ifstream aside(store.file().string() + ".set-aside");
  CHECK(std::string(std::istreambuf_iterator<char>(aside), {}) == "a letter to the client");
  CHECK(store.run(citing_project()).reused == 3);
}

TEST_CASE("A store of another program or a spoilt result is not believed") {
  StoreOfTests store;
  store.run(citing_project());
  const auto with_database = [&](const char* sql) {
    sqlite3* database = nullptr;
    sqlite3_open(store.file().c_str(), &database);
    CHECK(sqlite3_exec(database, sql, nullptr, nullptr, nullptr) == SQLITE_OK);
    sqlite3_close(database);
  };
  with_database("UPDATE outcome SET bytes = x'00'");
  const Results spoilt = store.run(citing_project());
  CHECK(panels_computed(spoilt) == 3);
  REQUIRE(store.warnings().size() == 1);
  CHECK_THAT(store.warnings()[0],
             Catch::Contains("a result is not what was written") && Catch::Contains("is set aside"));
  CHECK(all_findings(spoilt) == findings_without_store(citing_project()));
  CHECK(store.run(citing_project()).reused == 0);
  CHECK(store.run(citing_project()).reused == 3);

  with_database("PRAGMA application_id = 7");
  store.run(citing_project());
  REQUIRE(store.warnings().size() == 1);
  CHECK_THAT(store.warnings()[0], Catch::Contains("it is of another program or version"));
  CHECK(store.run(citing_project()).reused == 3);
}

TEST_CASE("A reads.json that says what it may not is told") {
  const testing::TemporaryFolder folder;
  const auto read = [&](const std::string& text) { return read_plugin_reads(folder.write("reads.json", text)); };
  CHECK(read("{}").registers);
  CHECK(read("{}").undeclared_settings);
  CHECK(read("{}").undeclared_properties);
  CHECK(read("{}").other_panels == PluginReads::OtherPanels::all);
  CHECK_THROWS_WITH(read("[]"), "is no JSON object");
  CHECK_THROWS_WITH(read(R"({"other_panels": "some"})"), Catch::StartsWith("holds 'other_panels': \"some\"; it may"));
  CHECK_THROWS_WITH(read(R"({"registers": 1})"), Catch::StartsWith("holds 'registers': 1"));
  CHECK_THROWS_WITH(read(R"({"other_panels": "bodies", "other_properties": [1]})"),
                    Catch::StartsWith("holds 'other_properties': [1]"));
  CHECK_THROWS_WITH(read(R"({"other_panels": "models", "other_properties": ["Pset_A.Read"]})"),
                    Catch::StartsWith("names other_properties, which go with"));
  CHECK_THROWS_WITH(read(R"({"more": true})"), Catch::StartsWith("holds 'more': true"));
}

TEST_CASE("A document that is not there is not opened, and one that changes has all computed anew") {
  StoreOfTests store;
  const testing::TemporaryFolder folder;
  Project project = citing_project();
  project.folder = folder.path().string();
  project.evidence.resize(1);
  project.evidence[0].id = "E-1";
  project.evidence[0].location = "report.txt";
  for (const EvidenceStatus absent : {EvidenceStatus::missing, EvidenceStatus::refused}) {
    project.evidence[0].status = absent;
    CHECK_NOTHROW(store.run(project));
  }
  project.evidence[0].status = EvidenceStatus::present;
  CHECK_THROWS_AS(store.run(project), std::runtime_error);
  folder.write("report.txt", "first");
  store.run(project);
  store.run(project);
  CHECK(store.calls() == 0);
  folder.write("report.txt", "second");
  store.run(project);
  CHECK(store.calls() == 3);
}
