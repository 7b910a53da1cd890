// The sample's export with its results, as the shared build wrote it; and the sample held against requirements.
#include <catch2/catch.hpp>
#include <cstddef>
#include <map>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>
#include <string>

#include "tests/sample/sample_build.h"

using namespace panel_dossier;

namespace {

using Written = std::map<std::string, std::string>;

/// Name and value of every property in the set of results that follows the panel's reference.
std::map<std::string, Written> written_by_panel(const pugi::xml_document& document) {
  std::map<std::string, std::string> panel_of_id;
  for (const pugi::xpath_node& node : document.select_nodes("//*[local-name()='IfcWall' and @GlobalId]")) {
    panel_of_id[node.node().attribute("id").value()] = node.node().attribute("GlobalId").value();
  }
  std::map<std::string, Written> written;
  for (const pugi::xpath_node& node : document.select_nodes("/*/*[local-name()='IfcRelDefinesByProperties']")) {
    const pugi::xml_node set = node.node().child("RelatingPropertyDefinition").child("IfcPropertySet");
    if (std::string(set.attribute("Name").value()) != "Panel_Results") continue;
    const std::string id = node.node().child("RelatedObjects").first_child().attribute("ref").value();
    Written& properties = written[panel_of_id.at(id)];
    for (const pugi::xml_node& property : set.child("HasProperties").children()) {
      properties[property.attribute("Name").value()] = property.child("NominalValue").first_child().text().get();
    }
  }
  return written;
}

}  // namespace

TEST_CASE("The export is written back with every verdict and figure of results.json", "[outputs][plain]") {
  pugi::xml_document document;
  REQUIRE(document.load_file(PANEL_DOSSIER_SAMPLE_BACK));
  const std::map<std::string, Written> written = written_by_panel(document);
  const auto& results = sample_results();
  REQUIRE(written.size() == results.at("panels").size());
  std::size_t verdicts = 0;
  for (const auto& panel : results.at("panels")) {
    const Written& properties = written.at(panel.at("global_id"));
    CHECK(properties.at("DossierHash") == results.at("build").at("hash_tree_root"));
    CHECK(properties.at("BuildTime") == PANEL_DOSSIER_SAMPLE_TIME);
    for (const auto& finding : panel.at("findings")) {
      const std::string check = finding.at("check");
      INFO(check);
      CHECK(properties.at(check + ".verdict") == finding.at("verdict"));
      ++verdicts;
      if (finding.at("value").is_number()) CHECK(std::stod(properties.at(check)) == finding.at("value"));
      if (finding.at("value").is_string()) CHECK(properties.at(check) == finding.at("value"));
    }
  }
  CHECK(verdicts > 1000);
}

TEST_CASE("What is written back can be read, and gives the same model", "[plain]") {
  const std::string check = quoted(PANEL_DOSSIER_PROGRAM) + " check ";
  const std::string settings = " --settings " + quoted(sample_folder() / "settings.json");
  const CommandResult before = run_command(check + quoted(sample_export()) + settings + " 2>/dev/null");
  const CommandResult after = run_command(check + quoted(PANEL_DOSSIER_SAMPLE_BACK) + settings + " 2>/dev/null");
  CHECK(after.status == 0);
  const auto without_evidence = [](const std::string& text) { return text.substr(0, text.find("evidence:")); };
  CHECK(without_evidence(after.out) == without_evidence(before.out));
}

TEST_CASE("The sample meets our requirements by the command, a panel without a property does not", "[plain]") {
  const testing::TemporaryFolder folder;
  const std::string ids =
      " --ids " + quoted(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas/panel-dossier.ids");
  const auto report = folder.path() / "report.csv";
  const std::string check = quoted(PANEL_DOSSIER_PROGRAM) + " check ";
  CHECK(run_command(check + quoted(sample_export()) + ids).status == 0);
  std::string text = text_of(sample_export());
  const std::string name = "Name=\"IsExternal\"";
  REQUIRE(text.find(name) != std::string::npos);
  text.replace(text.find(name), name.size(), "Name=\"IsInternal\"");
  const auto other = folder.path() / "other.ifcxml";
  std::ofstream(other, std::ios::binary) << text;
  const CommandResult failed = run_command(check + quoted(other) + ids + " --report " + quoted(report));
  CHECK(failed.status == 1);
  CHECK(failed.out.find("fails: Must: panels") != std::string::npos);
  CHECK(text_of(report).find("property Pset_WallCommon.IsExternal (IFCBOOLEAN),") != std::string::npos);
  CHECK(run_command(check + quoted(sample_export()) + " --ids " + quoted(other)).status == 2);
  CHECK(run_command(check + quoted(other) + ids + " --report " + quoted(other)).status == 2);
  CHECK(text_of(other) == text);
  const auto settings = folder.path() / "settings.json";
  std::ofstream(settings) << "{}";
  CHECK(run_command(check + quoted(other) + ids + " --report " + quoted(settings)).status == 2);
  CHECK(text_of(settings) == "{}");
  CHECK(run_command(check + quoted(other) + ids + " --report " + quoted(report)).status == 1);
}

TEST_CASE("A build from the export with results finds the same, and writes the same back", "[plain]") {
  const SmallProject project;
  for (const auto& [form, option] : std::map<std::string, std::string>{{".ifcxml", "--out "}, {".ifc", "--step "}}) {
    INFO(form);
    const auto file = [&, end = form](const std::string& name) { return project.folder() / (name + end); };
    const auto out = [&, end = form](const std::string& name) { return project.folder() / (name + end + "-out"); };
    const std::string generate = PANEL_DOSSIER_SAMPLE_GENERATOR " --panels 4 " + option;
    REQUIRE(run_command(generate + quoted(file("export"))).status == 0);
    const auto build = [&](const std::string& name, const std::string& back) {
      return run_command(build_command(file(name), out(name)) + " --write-back " + quoted(file(back)) +
                         " >/dev/null 2>&1")
          .status;
    };
    REQUIRE(build("export", "back") == 1);
    REQUIRE(build("back", "again") == 1);
    const std::string back = text_of(file("back"));
    CHECK(back.find("result of panel-dossier: 7") != std::string::npos);
    CHECK((text_of(file("again")) == back));
    const auto first = nlohmann::json::parse(text_of(out("export") / "results.json"));
    const auto second = nlohmann::json::parse(text_of(out("back") / "results.json"));
    CHECK((first.at("panels") == second.at("panels")));
    CHECK((first.at("project_findings") == second.at("project_findings")));
    CHECK(first.at("build").at("hash_tree_root") == second.at("build").at("hash_tree_root"));
  }
}
