#include "core/trace/record.h"

#include <catch2/catch.hpp>
#include <filesystem>

#include "core/intake/document/sha256.h"
#include "core/trace/canonical.h"
#include "core/trace/hash_tree.h"
#include "tests/trace/test_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

Project project_with_evidence(const std::string& location) {
  Project project = sample_project();
  project.evidence.front().location = location;
  return project;
}

ResultsDocument record_below(const std::filesystem::path& project_dir, const Project& project) {
  BuildFacts facts = sample_facts();
  facts.project_dir = project_dir;
  return make_results_document(project, sample_results(project), facts);
}

}  // namespace

TEST_CASE("The root is the hash tree's over the panels' data and findings and the project's findings") {
  const Project project = sample_project();
  const auto document = sample_document();
  std::vector<Digest> leaves;
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    leaves.push_back(panel_leaf(sha256(canonical_panel(project.panels[i], project)),
                                sha256(canonical_findings(document.panels[i].findings))));
  }
  leaves.push_back(project_leaf(sha256(canonical_findings(document.project_findings))));
  CHECK(document.build.hash_tree_root == to_hex(tree_root(leaves)));
}

TEST_CASE("A changed finding of the project changes the root and no panel's hash") {
  const Project project = sample_project();
  Results results = sample_results(project);
  const auto before = make_results_document(project, results, sample_facts());
  REQUIRE_FALSE(results.project_findings.empty());
  results.project_findings[0].verdict = Verdict::fail;
  const auto after = make_results_document(project, results, sample_facts());
  CHECK(after.build.project_hash != before.build.project_hash);
  CHECK(after.build.hash_tree_root != before.build.hash_tree_root);
  CHECK(after.panels[0].hash == before.panels[0].hash);
}

TEST_CASE("Results from before the project's findings stood in the tree keep their root") {
  ResultsDocument document = sample_document();
  std::vector<Digest> leaves;
  for (const PanelSummary& panel : document.panels) leaves.push_back(digest_from_hex(panel.hash));
  document.build.project_hash.clear();
  CHECK(hash_tree_root(document) == to_hex(tree_root(leaves)));
}

TEST_CASE("A changed finding changes its panel's hash but not the hash of its data") {
  Project project = sample_project();
  Results results = sample_results(project);
  const auto before = make_results_document(project, results, sample_facts());
  results.panel_findings[1][0].verdict = Verdict::fail;
  const auto after = make_results_document(project, results, sample_facts());
  CHECK(after.panels[1].data_hash == before.panels[1].data_hash);
  CHECK(after.panels[1].hash != before.panels[1].hash);
  CHECK(after.panels[0].hash == before.panels[0].hash);
  CHECK(after.build.hash_tree_root != before.build.hash_tree_root);
}

TEST_CASE("Evidence below the project folder is hashed") {
  const TemporaryFolder dir;
  dir.write("evidence/report.txt", "invented");
  const auto document = record_below(dir.path(), sample_project());
  CHECK(document.build.evidence.front().sha256 == to_hex(sha256("invented")));
  CHECK(document.build.evidence.front().name == "evidence/report.txt");
  CHECK(document.build.evidence.front().id == "E-1");
  CHECK_FALSE(document.build.incomplete);
}

TEST_CASE("Evidence outside the project folder is never hashed") {
  const TemporaryFolder dir;
  dir.write("secret.txt", "secret");
  std::filesystem::create_directories(dir.path() / "project");
  std::filesystem::create_symlink(dir.path() / "secret.txt", dir.path() / "project" / "link.txt");
  const std::string absolute = dir.path() / "secret.txt";
  for (const std::string& location : {std::string("../secret.txt"), std::string("link.txt"), absolute}) {
    const auto document = record_below(dir.path() / "project", project_with_evidence(location));
    CHECK(document.build.evidence.front().sha256.empty());
    CHECK(document.build.incomplete);
  }
}

TEST_CASE("Evidence that vanished makes the build incomplete and is named") {
  const TemporaryFolder dir;
  const auto document = record_below(dir.path(), project_with_evidence("gone.txt"));
  CHECK(document.build.incomplete);
  REQUIRE(document.build.failures.size() == 1);
  CHECK_THAT(document.build.failures.front(), Catch::Contains("gone.txt"));
}

TEST_CASE("Plugins and their data tables are hashed by name") {
  const TemporaryFolder dir;
  PluginRecord plugin;
  plugin.info.id = "thermal";
  plugin.file = dir.write("thermal.so", "code");
  dir.write("thermal/b.csv", "b");
  dir.write("thermal/a.csv", "a");
  dir.write("thermal/outputs.json", "{}");
  dir.write("thermal/notes.txt", "not a table");
  plugin.data_dir = dir.path() / "thermal";
  Project project = sample_project();
  project.evidence.clear();
  for (auto& panel : project.panels) panel.evidence.clear();
  Results results = sample_results(project);
  results.plugins = {plugin};
  const auto document = make_results_document(project, results, sample_facts());
  const auto& summary = document.build.plugins.front();
  CHECK(summary.sha256 == to_hex(sha256("code")));
  REQUIRE(summary.data_tables.size() == 3);
  CHECK(summary.data_tables[0].name == "a.csv");
  CHECK(summary.data_tables[1].sha256 == to_hex(sha256("b")));
}

TEST_CASE("Export and settings are hashed as read") {
  Project project = sample_project();
  project.evidence.front().status = EvidenceStatus::missing;
  BuildFacts facts = sample_facts("abc");
  facts.settings_bytes = "{}";
  const auto document = make_results_document(project, sample_results(project), facts);
  CHECK(document.build.export_sha256 == to_hex(sha256("abc")));
  CHECK(document.build.settings_sha256 == to_hex(sha256("{}")));
  CHECK(sample_document().build.settings_sha256.empty());
}

TEST_CASE("Results of another project are refused") {
  Results results = sample_results(sample_project());
  results.panel_findings.pop_back();
  CHECK_THROWS_WITH(make_results_document(sample_project(), results, sample_facts()), Catch::Contains("2 panels of 3"));
}

TEST_CASE("Rows recalled from memory on which a pass or a fail rests are listed until they are confirmed") {
  const Project project = sample_project();
  const auto unconfirmed = [&](Verdict verdict, const std::string& source, const BuildFacts& facts) {
    Results results = sample_results(project);
    FindingRecorder recorder;
    for (auto& findings : results.panel_findings) {
      Finding finding = whole_finding(findings[1]);
      finding.verdict = verdict;
      finding.inputs[1].origin.source = source;
      findings[1] = recorder.record(finding);
    }
    return make_results_document(project, std::move(results), facts).build.unconfirmed;
  };
  const std::string recalled = "EN ISO 6946:2017, table 7 (from memory)";
  const std::vector<std::string> listed{"resistances.csv row 'horizontal': " + recalled + "; in thermal.u_value"};
  CHECK(unconfirmed(Verdict::pass, recalled, sample_facts()) == listed);
  CHECK(unconfirmed(Verdict::fail, recalled, sample_facts()) == listed);
  CHECK(unconfirmed(Verdict::information, recalled, sample_facts()).empty());
  CHECK(unconfirmed(Verdict::not_assessed, recalled, sample_facts()).empty());
  CHECK(unconfirmed(Verdict::pass, "EN ISO 6946:2017, table 7", sample_facts()).empty());
  BuildFacts facts = sample_facts();
  facts.table_confirmations.resize(1);
  facts.table_confirmations[0].table = "resistances.csv";
  facts.table_confirmations[0].row = "upwards";
  CHECK(unconfirmed(Verdict::pass, recalled, facts) == listed);
  facts.table_confirmations[0].row = "horizontal";
  CHECK(unconfirmed(Verdict::pass, recalled, facts).empty());
}
