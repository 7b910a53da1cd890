// The settings file: flat keys, and every fault with its place.
#include "core/intake/settings/settings_reader.h"

#include <catch2/catch.hpp>

#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

std::string problems(const std::string& text) {
  const SettingsResult result = read_settings(text, "settings.json");
  CHECK(result.settings.all().empty());
  return intake_test::all_of(result.diagnostics);
}

TEST_CASE("nested settings are joined by dots and arrays numbered from 0", "[intake]") {
  const SettingsResult result = read_settings(
      R"({"a": {"b": 1.5, "c": true}, "people": [{"name": "x"}, {"name": "y"}], "n": -2})", "settings.json");
  CHECK(result.diagnostics.empty());
  CHECK(result.settings.number("a.b")->value == 1.5);
  CHECK(result.settings.logical("a.c")->value);
  CHECK(result.settings.text("people.1.name")->value == "y");
  CHECK(result.settings.number("n")->value == -2.0);
}

TEST_CASE("the sample's settings are read without a word", "[intake]") {
  const auto file = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "sample_project/settings.json";
  CHECK(read_settings(file).diagnostics.empty());
}

TEST_CASE("null, double keys and dots in keys are refused by name, all in one run", "[intake]") {
  CHECK(problems(R"({"a": {"b": null}, "c": 1, "c": 2, "d.e": 3})") ==
        "settings.json: error: a.b: is null; leave the key out instead\n"
        "settings.json: error: c: is given twice; keep one of them\n"
        "settings.json: error: d.e: has an empty name or a dot in its name; nest objects instead of writing dots\n");
}

TEST_CASE("a slip in the JSON is reported with its line and column", "[intake]") {
  const SettingsResult result = read_settings("{\n  \"a\": 1,\n  \"b\" 2\n}", "settings.json");
  REQUIRE(result.diagnostics.size() == 1);
  CHECK(result.diagnostics[0].line == 3);
  CHECK(result.diagnostics[0].column == 7);
  CHECK(result.diagnostics[0].message.find("not valid JSON") == 0);
}

TEST_CASE("settings that are no object are refused", "[intake]") {
  const std::string expected =
      "settings.json:1:1: error: the settings are not an object; write { \"key\": value, … }\n";
  CHECK(problems("[1, 2]") == expected);
  CHECK(problems("3") == expected);
}

TEST_CASE("settings nested 100,000 deep are refused without running out of stack", "[intake]") {
  std::string text = "{\"a\":";
  for (int i = 0; i < 100'000; ++i) text += '[';
  CHECK(problems(text).find("is nested more than 32 deep") != std::string::npos);
}

}  // namespace
}  // namespace panel_dossier
