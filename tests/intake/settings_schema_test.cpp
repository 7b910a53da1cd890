// What the settings may hold: every fault named with its key and what to write, and what a faulty schema is told.
#include "core/intake/settings/settings_schema.h"

#include <catch2/catch.hpp>

#include "core/api/testing/temporary_folder.h"
#include "core/intake/settings/settings_reader.h"
#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

namespace fs = std::filesystem;

const fs::path kSourceDir = PANEL_DOSSIER_SOURCE_DIR;

SettingsSchema own_groups() {
  return SettingsSchema(kSourceDir / "schemas/settings.schema.json");
}

// A discipline that nobody has, with a setting of every kind.
const char* const kQuarry = R"({
  "type": "object", "description": "Stone", "additionalProperties": false,
  "properties": {
    "depth_m": { "type": "number", "exclusiveMinimum": 0, "description": "Depth of the quarry, m" },
    "share_sold": { "type": "number", "minimum": 0, "maximum": 1, "description": "Share of 1" },
    "slope": { "type": "number", "below_": 0, "exclusiveMaximum": 2, "description": "Rise over length" },
    "shifts": { "type": "integer", "minimum": 1, "description": "Shifts of a day" },
    "wet": { "type": "boolean", "description": "Water stands in it" },
    "stone": { "enum": ["granite", "slate"], "description": "Kind of stone" },
    "grade": { "enum": [1, 2], "description": "Grade of the stone" },
    "owner": { "type": "string", "minLength": 1, "description": "Who owns it" },
    "code": { "type": "string", "pattern": "^[A-Z]{2}$", "description": "Two capital letters" },
    "opened": { "type": "string", "format": "date", "description": "First day" },
    "lengths_m": { "type": "array", "minItems": 2, "maxItems": 3, "description": "Lengths of blocks, m",
                   "items": { "type": "number", "exclusiveMinimum": 0 } },
    "names": { "type": "object", "additionalProperties": { "type": "string" }, "description": "Any name" },
    "open": { "type": "object", "additionalProperties": true, "description": "Anything" },
    "crane": { "type": "object", "additionalProperties": false, "description": "The crane",
               "properties": { "reach_m": { "type": "number", "description": "Reach, m" } } },
    "stones_file": { "type": "string", "rows_of": "stones", "row_word": "stone", "description": "List of stones" },
    "stones": { "type": "array", "unique": "name", "description": "Stones, one entry each", "items": {
      "type": "object", "additionalProperties": false, "required": ["name", "mass_kg"], "properties": {
        "name": { "type": "string", "minLength": 1, "description": "What it is called" },
        "mass_kg": { "type": "number", "minimum": 0, "description": "Mass, kg" },
        "line": { "type": "number", "description": "Line of the file" } } } }
  }
})";

std::string without(std::string text, const std::string& what) {
  return intake_test::edited(std::move(text), what, what, "");
}

std::string quarry() {
  return without(kQuarry, "\"below_\": 0, ");
}

SettingsSchema with_quarry() {
  SettingsSchema schema = own_groups();
  schema.add_group("quarry", quarry());
  return schema;
}

Settings settings_of(const std::string& text) {
  const SettingsResult read = read_settings(text, "settings.json");
  REQUIRE(read.diagnostics.empty());
  return read.settings;
}

std::string faults(const std::string& text) {
  return intake_test::all_of(with_quarry().faults_of(settings_of(text), "s"));
}

std::string refusal_of_group(const std::string& text) {
  try {
    SettingsSchema::check_group(text);
  } catch (const std::runtime_error& error) {
    return error.what();
  }
  return "accepted";
}

TEST_CASE("a setting that nothing describes is warned of and named, at any depth", "[intake]") {
  CHECK(
      faults(R"({"quarry": {"dept_m": 3, "crane": {"reach": 1}}, "building": {"hight_m": 9}})") ==
      "s: warning: building.hight_m: no check reads this setting; it is ignored; see settings.schema.json for the "
      "keys\n"
      "s: warning: quarry.crane.reach: no check reads this setting; it is ignored; see settings.schema.json of plugin "
      "'quarry' for the keys\n"
      "s: warning: quarry.dept_m: no check reads this setting; it is ignored; see settings.schema.json of plugin "
      "'quarry' for the keys\n");
}

TEST_CASE("a group that nobody knows is warned of once, however much it holds", "[intake]") {
  CHECK(faults(R"({"acoustic": {"limit": 1, "rooms": [1, 2, 3]}})") ==
        "s: warning: acoustic: no check reads this setting; it is ignored; correct the name, or load the plugin "
        "'acoustic'\n");
}

TEST_CASE("settings that keep their rules are not spoken of", "[intake]") {
  CHECK(faults(R"({"quarry": {"depth_m": 0.1, "share_sold": 1, "slope": -5, "shifts": 2, "wet": true, "stone": "slate",
                   "grade": 2, "owner": "é", "code": "AB", "opened": "2028-02-29", "lengths_m": [1, 2.5],
                   "names": {"Oak": "timber", "12": "x"}, "open": {"0": true, "x": {"y": 1}}, "crane": {"reach_m": -3},
                   "stones": [{"name": "a", "mass_kg": 0}, {"name": "b", "mass_kg": 1, "line": 4}]}})")
            .empty());
}

TEST_CASE("a value that its rule refuses is an error that says what to write", "[intake]") {
  struct Case {
    const char* setting;
    const char* message;
  };
  const Case tested = GENERATE(
      Case{R"("depth_m": "deep")",
           "depth_m: 'deep' is not a number; write a number that is above 0: Depth of the quarry, m"},
      Case{R"("depth_m": "12.5")", "depth_m: '12.5' is not a number but a text in quotes; leave the quotes out"},
      Case{R"("depth_m": 0)", "depth_m: 0 is not above 0; write a number that is above 0: Depth of the quarry, m"},
      Case{R"("depth_m": {"a": 1})",
           "depth_m: is a group of settings; write a number that is above 0: Depth of the quarry, m"},
      Case{R"("depth_m": [1])", "depth_m: is a list; write a number that is above 0: Depth of the quarry, m"},
      Case{R"("share_sold": -0.25)",
           "share_sold: -0.25 is not at least 0; write a number that is at least 0 and at most 1: Share of 1"},
      Case{R"("share_sold": 1.01)",
           "share_sold: 1.01 is not at most 1; write a number that is at least 0 and at most 1: Share of 1"},
      Case{R"("slope": 2)", "slope: 2 is not below 2; write a number that is below 2: Rise over length"},
      Case{R"("shifts": 1.5)",
           "shifts: 1.5 is not a whole number; write a whole number that is at least 1: Shifts of a day"},
      Case{R"("wet": "yes")", "wet: 'yes' is not true or false; write true or false: Water stands in it"},
      Case{R"("wet": 1)", "wet: 1 is not true or false; write true or false: Water stands in it"},
      Case{R"("stone": "Slate")", "stone: 'Slate' is not allowed here; write one of: granite, slate"},
      Case{R"("stone": true)", "stone: true is not allowed here; write one of: granite, slate"},
      Case{R"("grade": 3)", "grade: 3 is not allowed here; write one of: 1, 2"},
      Case{R"("grade": "2")", "grade: '2' is not allowed here; write one of: 1, 2"},
      Case{R"("owner": 7)", "owner: 7 is not a text; write a text: Who owns it"},
      Case{R"("owner": "")", "owner: the text is empty; write a text: Who owns it"},
      Case{R"("code": "abc")", "code: 'abc' has another form; write a text of this form: Two capital letters"},
      Case{R"("opened": "2026-02-29")", "opened: '2026-02-29' is not a date; write a date as 2026-06-01: First day"},
      Case{R"("lengths_m": 3)", "lengths_m: is 3, not a list; write [ … ]: Lengths of blocks, m"},
      Case{R"("lengths_m": {"a": 3})",
           "lengths_m: is a group of settings, not a list; write [ … ]: Lengths of blocks, m"},
      Case{R"("lengths_m": [3])", "lengths_m: has 1 element; write at least 2 elements"},
      Case{R"("lengths_m": [3, 4, 5, 6])", "lengths_m: has 4 elements; write at most 3 elements"},
      Case{R"("lengths_m": [3, 0])", "lengths_m.1: 0 is not above 0; write a number that is above 0"},
      Case{R"("names": {"Oak": 5})", "names.Oak: 5 is not a text; write a text"},
      Case{R"("crane": 5)", "crane: is 5, not a group of settings; write { \"key\": value, … }"},
      Case{R"("crane": [5])", "crane: is a list, not a group of settings; write { \"key\": value, … }"},
      Case{R"("stones": [{"name": "a"}])",
           "stones.0: 'mass_kg' is missing; write a number that is at least 0: Mass, kg"},
      Case{R"("stones": [{"name": "a", "mass_kg": 1}, {"name": "a", "mass_kg": 2}])",
           "stones.1.name: 'a' is there already; keep one of them"});
  INFO(tested.setting);
  CHECK(faults(std::string("{\"quarry\": {") + tested.setting + "}}") ==
        std::string("s: error: quarry.") + tested.message + "\n");
}

TEST_CASE("a text too long to be a code is refused without matching it", "[intake]") {
  const std::string found = faults("{\"quarry\": {\"code\": \"" + std::string(1U << 20U, 'A') + "\"}}");
  CHECK(found.find("AAA…' is too long; write a text of this form: Two capital letters") != std::string::npos);
  CHECK(found.size() < 300);
}

TEST_CASE("the tables of a schema are those that its files name, with the columns of the list", "[intake]") {
  const std::vector<SettingsTable> tables = with_quarry().tables();
  REQUIRE(tables.size() == 1);
  CHECK(tables[0].name == "quarry.stones");
  CHECK(tables[0].row_word == "stone");
  CHECK(tables[0].description == "List of stones");
  CHECK(tables[0].unique_column == 0U);
  REQUIRE(tables[0].columns.size() == 2);
  CHECK(tables[0].columns[0].name == "name");
  CHECK(tables[0].columns[1].name == "mass_kg");
  CHECK(tables[0].columns[1].is_required);
  CHECK(tables[0].columns[1].rule.kind == ValueKind::number);
}

TEST_CASE("a faulty schema of a plugin is refused with the setting at fault", "[intake]") {
  const auto described = [](const std::string& setting) {
    return R"({"type": "object", "description": "d", "properties": {"a": {"type": "object", "description": "d",)"
           R"( "properties": {"b": )" +
           setting + "}}}}";
  };
  struct Case {
    std::string schema;
    const char* message;
  };
  const std::vector<Case> cases = {
      {"{", "the schema is not valid JSON"},
      {"[]", "the schema is not described by an object"},
      {R"({"type": "string", "description": "d"})", "the schema describes no object with 'properties'"},
      {R"({"type": "object", "description": "d"})", "the schema describes no object with 'properties'"},
      {R"({"type": "object", "properties": {}})", "the schema has no 'description'"},
      {described(R"({"type": "number"})"), "'a.b' has no 'description'"},
      {described(R"({"type": "real", "description": "d"})"),
       "'a.b' has the type 'real'; use string, number, integer, boolean, array or object"},
      {described(R"({"minimun": 1, "description": "d"})"),
       "'a.b' has the word 'minimun', which the settings do not understand"},
      {described(R"({"minimum": "1", "description": "d"})"), "'a.b' has a 'minimum' that is no number"},
      {described(R"({"minLength": -1, "description": "d"})"), "'a.b' has a 'minLength' that is no whole number"},
      {described(R"({"enum": [], "description": "d"})"), "'a.b' has an 'enum' that is no list of values"},
      {described(R"({"pattern": "(", "description": "d"})"), "'a.b' has a 'pattern' that is no regular expression"},
      {described(R"({"format": "time", "description": "d"})"), "'a.b' has the format 'time'; only 'date' is known"},
      {described(R"({"type": "object", "required": ["c"], "description": "d"})"),
       "'a.b' requires 'c', which it does not describe"},
      {described(R"({"type": "array", "unique": "c", "description": "d"})"),
       "'a.b' has 'unique' 'c', which its elements do not describe"},
      {intake_test::edited(quarry(), "stones_file", "stones_file", "stones_list"),
       "'stones_list' must be named 'stones_file'"},
      {without(quarry(), R"("row_word": "stone", )"), "'stones_file' has no 'row_word': what a row of its file is"},
      {intake_test::edited(quarry(), "\"stones\": {", "stones", "rocks"),
       "'stones_file' needs the list 'stones' beside it, whose 'items' describe the columns"},
      {intake_test::edited(quarry(), "\"line\"", "line", "row"),
       "'stones.*' has no number 'line', in which the program keeps the line of the file"},
  };
  for (const Case& tested : cases) {
    INFO(tested.schema);
    CHECK(refusal_of_group(tested.schema) == tested.message);
  }
  CHECK(refusal_of_group(kQuarry) == "'slope' has the word 'below_', which the settings do not understand");
  CHECK(refusal_of_group(quarry()) == "accepted");
  std::string deep = R"({"description": "d"})";
  for (int i = 0; i < 40; ++i) deep = R"({"type": "object", "description": "d", "properties": {"a": )" + deep + "}}";
  CHECK(refusal_of_group(deep).find("is nested more than 32 deep") != std::string::npos);
}

TEST_CASE("a group comes once, and a faulty one changes nothing", "[intake]") {
  SettingsSchema schema = with_quarry();
  const std::string before = schema.text();
  CHECK_THROWS_WITH(schema.add_group("quarry", quarry()),
                    "the settings have a group 'quarry' already; give the plugin another id");
  CHECK_THROWS_WITH(schema.add_group("building", quarry()),
                    "the settings have a group 'building' already; give the plugin another id");
  CHECK_THROWS_WITH(schema.add_group("mine", "{"),
                    "settings.schema.json of plugin 'mine': the schema is not valid JSON");
  CHECK(schema.text() == before);
}

TEST_CASE("the text of a schema holds the program's groups and those added", "[intake]") {
  const std::string text = with_quarry().text();
  CHECK(text.find("\"building\": {") != std::string::npos);
  CHECK(text.find("\"quarry\": {") > text.find("\"intake\": {"));
  const testing::TemporaryFolder folder;
  std::ofstream(folder.path() / "all.json") << text;
  CHECK(SettingsSchema(folder.path() / "all.json").tables().size() == 1);
}

TEST_CASE("the schemas of the plugins are sound and the sample's settings keep them", "[intake]") {
  SettingsSchema schema = own_groups();
  for (const fs::path& file : intake_test::plugin_files("settings.schema.json")) {
    std::ifstream stream(file, std::ios::binary);
    schema.add_group(file.parent_path().filename().string(),
                     {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()});
  }
  const fs::path sample = kSourceDir / "sample_project";
  SettingsResult read = read_settings(sample / "settings.json");
  REQUIRE(read.diagnostics.empty());
  const auto files = read_settings_files(schema.tables(), read.settings, sample, "settings.json", read.diagnostics);
  const Diagnostics found = schema.faults_of(read.settings, "settings.json");
  CHECK(intake_test::all_of(read.diagnostics) + intake_test::all_of(found) == "");
  CHECK(files.size() == 2);
}

TEST_CASE("a schema of the program that cannot be read is an error with the way out", "[intake]") {
  CHECK_THROWS_WITH(SettingsSchema("/nonexistent/settings.schema.json"),
                    "cannot read '/nonexistent/settings.schema.json'; give the folder of the schemas with --schemas");
  const testing::TemporaryFolder folder;
  const fs::path file = folder.path() / "settings.schema.json";
  std::ofstream(file) << "[]";
  CHECK_THROWS_WITH(SettingsSchema(file), "'" + file.string() + "': the schema is not described by an object");
}

}  // namespace
}  // namespace panel_dossier
