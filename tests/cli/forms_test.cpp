// What the forms say of a small made-up project.
#include <catch2/catch.hpp>

#include "core/api/testing/temporary_folder.h"
#include "core/cli/forms/gap_table.h"
#include "core/cli/forms/settings_form.h"
#include "core/cli/forms/table_forms.h"
#include "core/cli/planned_files.h"
#include "core/cli/terminal/console_progress.h"
#include "core/intake/document/file_bytes.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

PropertyRow row_of(const std::string& set, const std::string& property, const std::string& on, const std::string& title,
                   const std::string& unit) {
  PropertyRow row;
  row.set = set;
  row.property = property;
  row.on = on;
  row.title = title;
  row.unit = unit;
  return row;
}

/// Gaps of a material, of a panel's record and of a setting, and the records that give the second.
struct SmallGaps {
  PropertyRow conductivity =
      row_of("Pset_MaterialThermal", "ThermalConductivity", "material", "thermal conductivity", "W/(m·K)");
  PropertyRow class_of_panel = row_of("Panel_Fire", "Class", "panel", "", "");
  PropertyRow grounds = row_of("Panel_Site", "Grounds", "site", "", "");
  PropertyRow width = row_of("Panel_AsBuilt", "Width", "panel", "width as built", "m");
  std::vector<RecordTable> records;
  std::vector<Gap> gaps;
  Project project;

  SmallGaps() {
    conductivity.meaning = "design value";
    class_of_panel.words = {"A", "B"};
    RecordTable as_built;
    as_built.name = "as_built";
    as_built.columns = {{"day", RecordKind::day, "", true, "", {}, {}, ""},
                        {"panel width", RecordKind::number, "m", false, "Panel_AsBuilt.Width", {}, {}, "as measured"},
                        {"state", RecordKind::word, "", false, "", {}, {"good", "bad"}, ""}};
    RecordTable loads;
    loads.name = "loads";
    loads.columns = {{"vehicle", RecordKind::text, "", false, "", {}, {}, ""}};
    records = {as_built, loads};
    gaps = {{Gap::Source::property,
             "Pset_MaterialThermal.ThermalConductivity",
             &conductivity,
             {"osb, 12", "wool"},
             {"thermal", "fire"},
             {0, 1},
             false},
            {Gap::Source::property, "Panel_Fire.Class", &class_of_panel, {"P-2"}, {"fire"}, {1}, false},
            {Gap::Source::property, "Panel_AsBuilt.Width", &width, {"P-1", "P-2"}, {"fire"}, {0, 1}, false},
            {Gap::Source::property, "Panel_Site.Grounds", &grounds, {}, {"fire"}, {}, true},
            {Gap::Source::setting, "project.use", nullptr, {}, {"fire"}, {}, true}};
    for (const char* mark : {"P-1", "P-2"}) {
      Panel panel;
      panel.mark = mark;
      project.panels.push_back(panel);
    }
    project.panels[0].type = "T1";
  }
};

SettingDescription value_of_kind(const std::string& name, ValueKind kind, const std::string& description) {
  SettingDescription value;
  value.name = name;
  value.rule.kind = kind;
  value.rule.description = description;
  return value;
}

}  // namespace

TEST_CASE("What is missing is told by discipline, first that for which most panels wait, and where it would stand") {
  const SmallGaps small;
  const std::vector<DisciplineState> states{
      {"carbon", "Carbon", 3, 0, 3}, {"fire", "Fire", 4, 2, 0}, {"thermal", "Heat", 1, 1, 1}};
  CHECK(gap_table(small.gaps, states, small.records) ==
        "carbon: nothing is missing\n"
        "fire: 2 of 4 findings wait for data or documents; it has no figure yet\n"
        "  2 panels      library: materials          thermal conductivity [W/(m·K)] of 2 materials\n"
        "  2 panels      records: as_built           width as built [m] of 2 panels\n"
        "  1 panel       library: panels             Panel_Fire.Class of 'P-2'\n"
        "  the project   the export (Panel_Site.Grounds) Panel_Site.Grounds of the site\n"
        "  the project   settings.json               setting project.use\n"
        "thermal: 1 of 1 finding waits for data or documents\n"
        "  2 panels      library: materials          thermal conductivity [W/(m·K)] of 2 materials\n");
}

TEST_CASE("A place as wide as its column keeps a space behind it") {
  SmallGaps small;
  small.records[0].name = "as_built_of_a_house";
  REQUIRE(std::string("records: " + small.records[0].name).size() == 28);
  CHECK_THAT(gap_table(small.gaps, {{"fire", "Fire", 4, 2, 1}}, small.records),
             Contains("records: as_built_of_a_house width as built"));
}

TEST_CASE("A form of the library has a row a thing and a column for each property that it can give") {
  const SmallGaps small;
  const std::vector<TableForm> forms = library_forms(small.project, small.gaps, small.records);
  REQUIRE(forms.size() == 2);
  CHECK(forms[0].file == "library/materials.csv");
  CHECK_THAT(forms[0].text,
             Contains("# category: ") &&
                 Contains("# thermal conductivity [W/(m·K)]: Pset_MaterialThermal.ThermalConductivity, design value; "
                          "lacking in 2, needed for fire, thermal\n") &&
                 Contains("product,material name,category,thermal conductivity [W/(m·K)],source,day\n"
                          "\"osb, 12\",\"osb, 12\",,,,\nwool,wool,,,,\n"));
  CHECK(forms[1].file == "library/panels.csv");
  CHECK_THAT(forms[1].text, Contains("# Panel_Fire.Class: Panel_Fire.Class (A, B); lacking in 1, needed for fire\n") &&
                                Contains("product,name,Panel_Fire.Class,source,day\nP-2,P-2,,,\n") &&
                                !Contains("category") && !Contains("width as built"));
}

TEST_CASE("A form of the records has a row a panel, and stands where a gap asks for it or all are wanted") {
  const SmallGaps small;
  const std::vector<TableForm> needed = record_forms(small.project, small.gaps, small.records, true);
  REQUIRE(needed.size() == 1);
  CHECK(needed[0].file == "records/as_built.csv");
  CHECK(needed[0].text ==
        "# panel width: as measured\n# state:  (good, bad)\nmark,day,panel width [m],state\nP-1,,,\nP-2,,,\n");
  CHECK(record_forms(small.project, small.gaps, small.records, false).size() == 2);
  CHECK(record_forms(small.project, {}, small.records, true).empty());
}

TEST_CASE("A form of settings holds what is known as values and all else as comments") {
  SettingDescription all;
  all.form = SettingDescription::Form::group;
  SettingDescription project;
  project.name = "project";
  project.form = SettingDescription::Form::group;
  project.rule.description = "Of the project as a whole.";
  SettingDescription use = value_of_kind("use", ValueKind::text, "What the building is for.");
  use.rule.choices = {std::string("homes"), std::string("care")};
  SettingDescription day = value_of_kind("day", ValueKind::text, "");
  day.rule.is_date = true;
  SettingDescription rooms;
  rooms.name = "rooms";
  rooms.form = SettingDescription::Form::list;
  SettingDescription room;
  room.form = SettingDescription::Form::group;
  room.properties = {value_of_kind("area_m2", ValueKind::number, ""), value_of_kind("heated", ValueKind::logical, "")};
  rooms.elements = std::make_shared<SettingDescription>(room);
  project.properties = {use, day, rooms, value_of_kind("name", ValueKind::text, ""),
                        value_of_kind("storeys", ValueKind::whole_number, "")};
  all.properties = {project, value_of_kind("library", ValueKind::text, "")};
  const std::vector<KnownSetting> known{{"project.name", "\"Hall\"", "the export's name"}};
  const SmallGaps small;
  const std::string whole = settings_form(all, known, small.gaps, false);
  CHECK_THAT(whole, Contains("\n\n  // Of the project as a whole.\n  \"project\": {\n"
                             "    // What the building is for. [needed: fire]\n"
                             "    // \"use\": \"homes | care\",\n"
                             "    // \"day\": \"YYYY-MM-DD\",\n"
                             "    // \"rooms\": [ { \"area_m2\": NUMBER, \"heated\": true | false } ],\n"
                             "    // Filled in, to be confirmed: the export's name\n"
                             "    \"name\": \"Hall\",\n"
                             "    // \"storeys\": NUMBER,\n"
                             "  },\n  // \"library\": \"…\",\n}\n"));
  const std::string needed = settings_form(all, known, small.gaps, true);
  CHECK_THAT(needed, Contains("\"use\"") && Contains("\"name\"") && !Contains("\"day\"") && !Contains("library"));
  CHECK_THAT(settings_form(all, {}, {}, true), !Contains("project\": {"));
}

TEST_CASE("A group of settings whose names are free stands in the form as a comment, like a value") {
  SettingDescription open;
  open.name = "open";
  open.form = SettingDescription::Form::group;
  SettingDescription all;
  all.form = SettingDescription::Form::group;
  all.properties = {open};
  CHECK_THAT(settings_form(all, {}, {}, false), Contains("\n  // \"open\": {"));
}

TEST_CASE("The export tells the height of the top storey with panels above the lowest storey") {
  SmallGaps small;
  Project& project = small.project;
  const auto storey = [](const char* name, std::optional<double> elevation_m) {
    Storey made;
    made.name = name;
    if (elevation_m) made.elevation_m = {*elevation_m, {}};
    return made;
  };
  project.storeys = {storey("ground", 0.5), storey("cellar", -2.5), storey("first", 3.5), storey("roof", 6.5),
                     storey("mast", std::nullopt)};
  const auto height = [&project]() -> std::string {
    for (const KnownSetting& known : settings_of_export(project, {"fire"})) {
      if (known.key == "building.top_storey_height_m") return known.value + " " + known.because;
    }
    return "";
  };
  CHECK(height().empty());
  project.panels[0].storey = 2;
  project.panels[1].storey = 0;
  CHECK_THAT(height(), Catch::Matchers::StartsWith("6 storey 'first' above storey 'cellar'"));
  project.panels[0].storey = 4;
  CHECK_THAT(height(), Catch::Matchers::StartsWith("3 storey 'ground' above storey 'cellar'"));
  CHECK(settings_of_export(project, {"fire", "heat"}).front().value == "[\"fire\", \"heat\"]");
}

TEST_CASE("Planned files are written all or none, and what was there comes back") {
  const testing::TemporaryFolder folder;
  const fs::path old_file = folder.write("old.txt", "before");
  write_all_or_none({{folder.path() / "a/b/new.txt", "new", true}, {old_file, "after", false}});
  CHECK(read_file(folder.path() / "a/b/new.txt") == "new");
  CHECK(read_file(old_file) == "after");
  // The second cannot be put in its place, for a folder stands there.
  fs::create_directories(folder.path() / "taken/inside");
  CHECK_THROWS(write_all_or_none({{old_file, "never", false},
                                  {folder.path() / "c/fresh.txt", "never", true},
                                  {folder.path() / "taken", "never", true}}));
  CHECK(read_file(old_file) == "after");
  CHECK_FALSE(fs::exists(folder.path() / "c"));
  CHECK_FALSE(fs::exists(folder.path() / "taken.new"));
  folder.write("old.txt.new", "somebody's");
  CHECK_THROWS_WITH(write_all_or_none({{old_file, "never", false}}), Contains("is in the way"));
  CHECK(read_file(folder.path() / "old.txt.new") == "somebody's");
}

TEST_CASE("A duration is told in seconds, minutes or hours") {
  CHECK(duration_text(0.4) == "0 s");
  CHECK(duration_text(59.4) == "59 s");
  CHECK(duration_text(59.6) == "1 min 00 s");
  CHECK(duration_text(609.0) == "10 min 09 s");
  CHECK(duration_text(670.0) == "11 min 10 s");
  CHECK(duration_text(3599.0) == "59 min 59 s");
  CHECK(duration_text(3600.0) == "1 h 00 min");
  CHECK(duration_text(3600.0 * 2 + 660.0) == "2 h 11 min");
}
