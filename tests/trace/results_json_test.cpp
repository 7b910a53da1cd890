#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <limits>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "core/api/testing/finding_difference.h"
#include "core/trace/results_reader.h"
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

/// Of the finding of the most members.
HexDigest hash_of_derivation() {
  return sample_document().panels[0].findings[1].derivation->hash;
}

std::string pointer_of_derivation(const std::string& member) {
  return "/derivations/" + hash_of_derivation() + member;
}

}  // namespace

TEST_CASE("results.json reads back to the same document") {
  const auto document = sample_document();
  const std::string text = to_json(document);
  const auto read = results_from_json(text);
  CHECK(to_json(read) == text);
  CHECK(finding_difference(whole_finding(read.panels[0].findings[1]), sample_finding("id-of-P-01")).empty());
  CHECK(read.project_findings[0].panel.empty());
  CHECK(read.build.hash_tree_root == document.build.hash_tree_root);
}

TEST_CASE("Findings of one derivation share it, also when results.json is read back") {
  const auto document = sample_document();
  const auto read = results_from_json(to_json(document));
  for (const ResultsDocument* each : {&document, &read}) {
    CHECK(each->panels[0].findings[1].derivation == each->panels[2].findings[1].derivation);
    CHECK(each->panels[0].findings[0].derivation != each->panels[0].findings[1].derivation);
    CHECK(derivations_of(*each).size() == 3);
  }
}

TEST_CASE("Derivations stand once, in the order of their hashes") {
  const auto document = sample_document();
  const auto json = nlohmann::ordered_json::parse(to_json(document));
  std::vector<std::string> hashes;
  for (const auto& [hash, derivation] : json["derivations"].items()) hashes.push_back(hash);
  CHECK(hashes.size() == 3);
  CHECK(std::ranges::is_sorted(hashes));
  const auto& finding = json["panels"][0]["findings"][1];
  CHECK(json["derivations"][finding["derivation"]]["inputs"][3]["origin"].is_null());
  CHECK(finding["origins"].size() == 4);
  CHECK(finding["origins"][0].is_null());
  CHECK(finding["origins"][3]["global_id"] == "id-of-P-01");
}

TEST_CASE("results.json has the agreed names and exact numbers") {
  const auto json = nlohmann::ordered_json::parse(to_json(sample_document()));
  CHECK(json["format"] == "panel-dossier-results");
  CHECK(json["version"] == 2);
  const auto& finding = json["panels"][0]["findings"][1];
  for (const char* name : {"check", "title", "panel", "value", "unit", "limit", "relation", "utilisation", "verdict",
                           "reason", "basis", "clause", "derivation", "origins"}) {
    CHECK(finding.contains(name));
  }
  const auto& derivation = json["derivations"][finding["derivation"]];
  for (const char* name : {"check", "clause", "decimals", "inputs", "steps", "values", "notes", "tables", "series",
                           "bar_charts", "drawings"}) {
    CHECK(derivation.contains(name));
  }
  CHECK_THAT(to_json(sample_document()), Catch::Contains("\"value\": 0.30000000000000004,"));
  CHECK(json["project_findings"][0]["panel"].is_null());
}

TEST_CASE("Whether a check is for the workshop is read where results say it, and no where they are older") {
  for (const bool for_workshop : {true, false}) {
    auto document = sample_document();
    document.build.plugins.resize(1);
    document.build.plugins[0].checks.resize(1);
    document.build.plugins[0].checks[0].for_workshop = for_workshop;
    auto json = nlohmann::ordered_json::parse(to_json(document));
    CHECK(results_from_json(json.dump()).build.plugins.at(0).checks.at(0).for_workshop == for_workshop);
    json["build"]["plugins"][0]["checks"][0].erase("for_workshop");
    CHECK_FALSE(results_from_json(json.dump()).build.plugins.at(0).checks.at(0).for_workshop);
  }
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
  CHECK_FALSE(schema_accepts(text_with("/panels/0/findings/1/origins/3/line", -1)));
  CHECK_FALSE(schema_accepts(text_with("/panels/0/findings/1/derivation", "abc")));
  CHECK_FALSE(schema_accepts(text_with(pointer_of_derivation("/steps"), 1)));
  CHECK_FALSE(schema_accepts(text_with("/derivations/abc", nlohmann::ordered_json::object())));
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
  CHECK_THROWS_WITH(results_from_json(text_with("/version", 1)),
                    Catch::Contains("version 1 is not version 2, which this program reads"));
  CHECK_THROWS_WITH(results_from_json(text_with("/panels/0/findings/0/verdict", "maybe")),
                    Catch::Contains("panel 'P-01'") && Catch::Contains("unknown word 'maybe'"));
  CHECK_THROWS_WITH(
      results_from_json(text_with(pointer_of_derivation("/tables/0/rows/0"), nlohmann::ordered_json::array())),
      Catch::Contains("one cell a column") && Catch::Contains("derivation '" + hash_of_derivation() + "'"));
  CHECK_THROWS_WITH(results_from_json(text_with("/panels", "none")), Catch::Contains("'panels'"));
  CHECK_THROWS_AS(results_from_json(std::string(100000, '[')), std::runtime_error);
}

TEST_CASE("A member of another type is refused in words, whichever it is") {
  using Json = nlohmann::ordered_json;
  const Json sound = Json::parse(to_json(sample_document()));
  const Json leaves = sound.flatten();
  for (const auto& [pointer, value] : leaves.items()) {
    Json changed = sound;
    changed[Json::json_pointer(pointer)] = Json::array({Json::object()});
    INFO(pointer);
    CHECK_THROWS_WITH(results_from_json(changed.dump()), !Catch::Contains("json.exception"));
  }
  CHECK(leaves.size() > 100);
}

TEST_CASE("A derivation that does not fit its findings is refused") {
  using Json = nlohmann::ordered_json;
  const std::string hash = hash_of_derivation();
  CHECK_THROWS_WITH(results_from_json(text_with("/panels/0/findings/1/derivation", std::string(64, 'a'))),
                    Catch::Contains("panel 'P-01': finding of 'thermal.u_value': there is no derivation 'aaaa"));
  CHECK_THROWS_WITH(results_from_json(text_with("/panels/0/findings/1/origins", Json::array({nullptr}))),
                    Catch::Contains("there are 1 origins for the 4 inputs of its derivation"));
  CHECK_THROWS_WITH(results_from_json(text_with("/panels/0/findings/1/origins/3", nullptr)),
                    Catch::Contains("the origin of input 'width' stands in neither finding nor derivation"));
  CHECK_THROWS_WITH(
      results_from_json(text_with("/panels/0/findings/1/origins/0", Json::object())),
      Catch::Contains("the origin of input 'thermal conductivity' stands in both finding and derivation"));
  CHECK_THROWS_WITH(results_from_json(text_with(pointer_of_derivation("/check"), "thermal.other")),
                    Catch::Contains("its derivation is of another check or clause: 'thermal.other'"));
  const Json derivation = Json::parse(to_json(sample_document()))["derivations"][hash];
  CHECK_THROWS_WITH(results_from_json(text_with("/derivations/unused", derivation)),
                    Catch::Contains("no finding names derivation 'unused'"));
  CHECK_THROWS_WITH(results_from_json(text_with("/derivations", 1)), Catch::Contains("'derivations'"));
}

TEST_CASE("A derivation that stands twice is refused") {
  std::string text = to_json(sample_document());
  const std::string start = "\"derivations\": {";
  const std::string hash = hash_of_derivation();
  const std::string derivation = nlohmann::ordered_json::parse(text)["derivations"][hash].dump();
  text.insert(text.find(start) + start.size(), "\"" + hash + "\": " + derivation + ",");
  CHECK_THROWS_WITH(results_from_json(text), Catch::Contains("derivation '" + hash + "' stands twice"));
}

TEST_CASE("Results are read from a file as from their text") {
  const TemporaryFolder dir;
  const ResultsDocument document = sample_document();
  const auto file = dir.write("results.json", to_json(document));
  CHECK(to_json(results_from_file(file)) == to_json(document));
  CHECK(build_from_file(file).export_sha256 == document.build.export_sha256);
  const std::string text = to_json(document);
  const auto head = dir.write("head.json", text.substr(0, text.find("\"panels\"") + 8) + ": [{ no JSON");
  CHECK(build_from_file(head).export_sha256 == document.build.export_sha256);
  CHECK_THROWS_WITH(results_from_file(head), Catch::Contains("not a results.json: "));
  CHECK_THROWS_WITH(results_from_file(dir.path() / "absent.json"), Catch::Contains("absent.json"));
  CHECK_THROWS_WITH(results_from_file(dir.path()), Catch::Contains("is not a file"));
}

TEST_CASE("A derivation that another document has too is taken from it, but not for its hash alone") {
  const TemporaryFolder dir;
  const ResultsDocument document = sample_document();
  const auto file = dir.write("results.json", to_json(document));
  const RecordedFinding& known = document.panels[0].findings[0];
  CHECK(results_from_file(file).panels[0].findings[0].derivation != known.derivation);
  CHECK(results_from_file(file, &document).panels[0].findings[0].derivation == known.derivation);

  ResultsDocument other = document;
  Derivation changed = *known.derivation;
  changed.notes.emplace_back("a note of the other");
  for (PanelSummary& panel : other.panels) {
    for (RecordedFinding& finding : panel.findings) {
      if (finding.derivation->hash == changed.hash) finding.derivation = std::make_shared<const Derivation>(changed);
    }
  }
  const auto read = results_from_file(dir.write("other.json", to_json(other)), &document);
  CHECK(read.panels[0].findings[0].derivation != known.derivation);
  CHECK(read.panels[0].findings[0].derivation->notes == changed.notes);
}

TEST_CASE("A member that stands twice is refused, and so is what follows the end") {
  const std::string text = to_json(sample_document());
  CHECK_THROWS_WITH(results_from_json("{\"panels\": [], " + text.substr(1)),
                    Catch::Contains("member 'panels' stands twice"));
  CHECK_THROWS_WITH(results_from_json(text + "{}"), Catch::StartsWith("not a results.json"));
  CHECK_THROWS_WITH(results_from_json(""), Catch::StartsWith("not a results.json"));
  CHECK_THROWS_WITH(results_from_json("7"), Catch::Contains("'format'"));
}
