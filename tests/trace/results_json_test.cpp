#include <catch2/catch.hpp>
#include <cstdlib>
#include <limits>
#include <nlohmann/json.hpp>
#include <string>

#include "tests/trace/test_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// True when the JSON Schema accepts the text.
bool schema_accepts(const std::string& json) {
  const TemporaryFolder dir;
  const auto file = dir.write("results.json", json);
  const std::string command = "/usr/bin/python3 -W ignore -m jsonschema -i '" + file.string() + "' '" +
                              PANEL_DOSSIER_SOURCE_DIR "/schemas/results.schema.json" + "' >/dev/null 2>&1";
  return std::system(command.c_str()) == 0;
}

std::string text_with(const std::string& pointer, const nlohmann::ordered_json& value) {
  auto json = nlohmann::ordered_json::parse(to_json(sample_document()));
  json[nlohmann::ordered_json::json_pointer(pointer)] = value;
  return json.dump();
}

}  // namespace

TEST_CASE("results.json reads back to the same document") {
  const auto document = sample_document();
  const std::string text = to_json(document);
  const auto read = results_from_json(text);
  CHECK(to_json(read) == text);
  const Finding& finding = read.panels[0].findings[1];
  const Finding original = sample_finding("id-of-P-01");
  CHECK(finding.value == original.value);
  CHECK(finding.limit == original.limit);
  CHECK(finding.utilisation == original.utilisation);
  CHECK(finding.verdict == Verdict::fail);
  CHECK(finding.relation == Relation::at_most);
  CHECK(finding.steps[0].value == original.steps[0].value);
  CHECK(finding.inputs[1].origin.source == "EN ISO 6946:2017, table 7");
  CHECK(finding.inputs[2].origin.key == "thermal.jurisdiction");
  CHECK(finding.tables[0].rows == original.tables[0].rows);
  CHECK(finding.series[0].curves[0].points[1].y == -3.0);
  CHECK(finding.bar_charts[0].parts == original.bar_charts[0].parts);
  CHECK(finding.bar_charts[0].bars[0].pieces[1].to == -0.5);
  CHECK(finding.drawings[0].polygons[0].hatch == Hatch::timber);
  CHECK(finding.drawings[0].polygons[0].tint == 2);
  CHECK(finding.drawings[0].dimensions[0].offset == 0.1);
  CHECK(read.project_findings[0].panel.empty());
  CHECK(read.build.hash_tree_root == document.build.hash_tree_root);
}

TEST_CASE("results.json of a build that knew no bar charts is read") {
  auto json = nlohmann::ordered_json::parse(to_json(sample_document()));
  json["panels"][0]["findings"][1].erase("bar_charts");
  CHECK(results_from_json(json.dump()).panels[0].findings[1].bar_charts.empty());
}

TEST_CASE("results.json has the agreed names and exact numbers") {
  const auto json = nlohmann::ordered_json::parse(to_json(sample_document()));
  CHECK(json["format"] == "panel-dossier-results");
  CHECK(json["version"] == 1);
  const auto& finding = json["panels"][0]["findings"][1];
  for (const char* name :
       {"check", "title", "panel", "value", "unit", "limit", "relation", "utilisation", "verdict", "reason", "basis",
        "clause", "inputs", "steps", "tables", "series", "bar_charts", "drawings"}) {
    CHECK(finding.contains(name));
  }
  CHECK_THAT(to_json(sample_document()), Catch::Contains("\"value\": 0.30000000000000004,"));
  CHECK(json["project_findings"][0]["panel"].is_null());
}

TEST_CASE("results.json meets its JSON Schema") {
  CHECK(schema_accepts(to_json(sample_document())));
  ResultsDocument empty;
  empty.build.time_utc = "2026-11-25T02:00:00Z";
  empty.build.export_sha256 = empty.build.hash_tree_root = std::string(64, '0');
  CHECK(schema_accepts(to_json(empty)));
}

TEST_CASE("The JSON Schema refuses what the contract does not allow") {
  CHECK_FALSE(schema_accepts(text_with("/panels/0/findings/0/verdict", "maybe")));
  CHECK_FALSE(schema_accepts(text_with("/panels/0/hash", "abc")));
  CHECK_FALSE(schema_accepts(text_with("/panels/0/findings/1/inputs/0/origin/line", -1)));
  CHECK_FALSE(schema_accepts(text_with("/unknown", 1)));
}

TEST_CASE("A finding that is not finite is refused") {
  auto document = sample_document();
  document.panels[0].findings[0].value = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_WITH(to_json(document), Catch::Contains("not finite"));
}

TEST_CASE("Text that is no results.json is refused with what is wrong") {
  CHECK_THROWS_WITH(results_from_json("{"), Catch::StartsWith("not a results.json"));
  CHECK_THROWS_WITH(results_from_json("[]"), Catch::Contains("member 'format' is missing"));
  CHECK_THROWS_WITH(results_from_json(text_with("/format", "other")), Catch::Contains("'format'"));
  CHECK_THROWS_WITH(results_from_json(text_with("/version", 2)), Catch::Contains("version 2"));
  CHECK_THROWS_WITH(results_from_json(text_with("/panels/0/findings/0/verdict", "maybe")),
                    Catch::Contains("panel 'P-01'") && Catch::Contains("unknown word 'maybe'"));
  CHECK_THROWS_WITH(
      results_from_json(text_with("/panels/0/findings/1/tables/0/rows/0", nlohmann::ordered_json::array())),
      Catch::Contains("one cell a column"));
  CHECK_THROWS_WITH(results_from_json(text_with("/panels", "none")), Catch::Contains("'panels'"));
  CHECK_THROWS_AS(results_from_json(std::string(100000, '[')), std::runtime_error);
}
