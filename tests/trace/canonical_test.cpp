#include "core/trace/canonical.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <limits>
#include <nlohmann/json.hpp>
#include <set>

#include "core/pipeline/record/json.h"
#include "tests/trace/test_support.h"

using namespace panel_dossier;
using panel_dossier::testing::sample_project;

namespace {

std::string text_of(const Project& project) {
  return canonical_panel(project.panels.front(), project);
}

std::string text_after(const std::function<void(Project&)>& change) {
  Project project = sample_project();
  change(project);
  return text_of(project);
}

}  // namespace

TEST_CASE("The canonical panel is what the export says, without what a library or a record adds") {
  CHECK(text_after([](Project& project) {
          Property added{650.0, "kg/m³", {}};
          added.origin.kind = OriginKind::input_table;
          project.materials.front().properties.add("Pset_Test", "Added", added);
          project.panels.front().properties.add("Pset_Test", "Added", added);
        }) == text_of(sample_project()));
}

TEST_CASE("The canonical panel does not depend on line numbers") {
  CHECK(
      text_after([](Project& project) {
        Panel& panel = project.panels.front();
        panel.origin.line = 999;
        panel.width_m.origin.line = 999;
        panel.parts.front().origin.line = 999;
        Properties moved;
        moved.add("Pset_WallCommon", "LoadBearing", {true, "", testing::export_origin("IfcPropertySingleValue", 999)});
        panel.properties = moved;
      }) == text_of(sample_project()));
}

TEST_CASE("The canonical panel does not depend on evidence files, other panels or unused materials") {
  CHECK(text_after([](Project& project) {
          project.evidence.front().status = EvidenceStatus::missing;
          project.panels.pop_back();
          project.materials.back().name = "renamed";
        }) == text_of(sample_project()));
}

TEST_CASE("The canonical panel does not depend on where its materials stand in the project") {
  CHECK(text_after([](Project& project) {
          std::swap(project.materials[0], project.materials[2]);
          project.panels.front().layers.front().material = 2;
        }) == text_of(sample_project()));
}

TEST_CASE("The last binary digit of a coordinate does not change the canonical panel") {
  CHECK(text_after([](Project& project) {
          double& width = project.panels.front().width_m.value;
          width = std::nextafter(width, 4.0);
        }) == text_of(sample_project()));
}

TEST_CASE("Every kind of data changes the canonical panel") {
  const std::vector<std::function<void(Project&)>> changes = {
      [](Project& p) { p.panels.front().mark = "P-99"; },
      [](Project& p) { p.panels.front().type = "T9"; },
      [](Project& p) { p.panels.front().storey.reset(); },
      [](Project& p) { p.panels.front().frame.origin.x = 1.0; },
      [](Project& p) { p.panels.front().width_m.value += 0.001; },
      [](Project& p) { p.panels.front().outside_known = false; },
      [](Project& p) { p.panels.front().layers.front().thickness_m.value += 0.001; },
      [](Project& p) { p.panels.front().layers.front().is_ventilated = true; },
      [](Project& p) { p.panels.front().layers.front().material = 2; },
      [](Project& p) { p.panels.front().parts.front().solid->depth_m += 0.001; },
      [](Project& p) { p.panels.front().parts.front().solid.reset(); },
      [](Project& p) { p.panels.front().parts.front().kind = PartKind::post; },
      [](Project& p) { p.panels.front().parts.front().count = 2; },
      [](Project& p) { p.panels.front().parts.clear(); },
      [](Project& p) { p.panels.front().openings.front().x_max_m += 0.001; },
      [](Project& p) { p.panels.front().evidence.clear(); },
      [](Project& p) {
        p.panels.front().properties.add("Panel_Identity", "ErectionOrder", {1.0, "", {}});
      },
      [](Project& p) { p.evidence.front().id = "E-9"; },
      [](Project& p) { p.evidence.front().location = "evidence/other.txt"; },
      [](Project& p) { p.storeys.front().name = "first floor"; },
      [](Project& p) {
        p.materials[1].properties.add("Panel_Timber", "StrengthClass", {std::string("C24"), "", {}});
      },
      [](Project& p) { p.materials[1] = testing::sample_material("softwood", 421.0); },
  };
  std::set<std::string> texts{text_of(sample_project())};
  for (const auto& change : changes) texts.insert(text_after(change));
  CHECK(texts.size() == changes.size() + 1);
}

TEST_CASE("The canonical panel is RFC 8785 JSON with sorted members") {
  const std::string text = text_of(sample_project());
  const auto json = nlohmann::ordered_json::parse(text);
  CHECK(canonical_json(json) == text);
  std::vector<std::string> names;
  for (const auto& [name, value] : json.items()) names.push_back(name);
  CHECK(std::ranges::is_sorted(names));
}

TEST_CASE("A text is written with the escapes that JSON asks for, and no others") {
  CHECK(canonical_json("C24, 45 ~ {}") == R"("C24, 45 ~ {}")");
  CHECK(canonical_json("a\"b\\c\n\x01") == R"("a\"b\\c\n\u0001")");
  CHECK(canonical_json("W/(m²·K)\x7f") == "\"W/(m²·K)\x7f\"");
  CHECK(canonical_json({{"b\"", nullptr}, {"a", true}}) == R"({"a":true,"b\"":null})");
  CHECK_THROWS_WITH(canonical_json("\xff"), Catch::Contains("invalid UTF-8"));
}

TEST_CASE("A number that is not finite has no canonical form") {
  CHECK_THROWS_WITH(
      text_after([](Project& p) { p.panels.front().width_m.value = std::numeric_limits<double>::quiet_NaN(); }),
      Catch::Contains("not finite"));
  const char* message = "check 'thermal.u_value': a number that is not finite cannot be written as JSON";
  Finding finding = testing::sample_finding("x");
  RecordedFinding recorded = FindingRecorder().record(finding);
  recorded.utilisation = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_WITH(canonical_findings({recorded}), message);
  finding.steps.front().value = std::numeric_limits<double>::infinity();
  CHECK_THROWS_WITH(FindingRecorder().record(finding), message);
}

TEST_CASE("The canonical findings are what results.json says of them") {
  const auto document = testing::sample_document();
  const auto json = nlohmann::ordered_json::parse(to_json(document));
  CHECK(canonical_json(json["panels"][0]["findings"]) == canonical_findings(document.panels[0].findings));
}
