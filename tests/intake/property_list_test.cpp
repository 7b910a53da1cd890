// The lists of properties: the program's, those of the plugins, and the one for CAD users that is put together of them.
#include "core/intake/graph/property_list.h"

#include <catch2/catch.hpp>
#include <map>
#include <tuple>

#include "core/api/testing/temporary_folder.h"
#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

namespace fs = std::filesystem;

const fs::path kSource = PANEL_DOSSIER_SOURCE_DIR;

fs::path written(const testing::TemporaryFolder& folder, const std::string& name, const std::string& rows) {
  std::ofstream(folder.path() / name)
      << "# comment\nset,property,title,on,measure,unit,range,usual,need,standard,meaning\n"
      << rows;
  return folder.path() / name;
}

std::vector<fs::path> committed_lists() {
  std::vector<fs::path> lists = {kSource / "schemas/model_properties.csv"};
  const std::vector<fs::path> of_plugins = intake_test::plugin_files("properties.csv");
  lists.insert(lists.end(), of_plugins.begin(), of_plugins.end());
  return lists;
}

std::vector<PropertyRow> committed_rows() {
  Reporter report("lists");
  std::vector<PropertyRow> rows = read_property_lists(load_property_lists(committed_lists(), report), report);
  REQUIRE(intake_test::all_of(report.take()).empty());
  return rows;
}

TEST_CASE("the committed list for CAD users is put together from those of the program and the plugins", "[intake]") {
  std::ifstream stream(kSource / "schemas/properties.csv", std::ios::binary);
  const std::string committed{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
  CHECK(committed == property_list_text(committed_rows()));
}

TEST_CASE("a property that several of the committed lists hold is said in the same words", "[intake]") {
  std::map<std::tuple<std::string, std::string, std::string>, const PropertyRow*> first;
  const std::vector<PropertyRow> rows = committed_rows();
  for (const PropertyRow& row : rows) {
    const PropertyRow& before = *first.emplace(std::tuple(row.set, row.property, row.on), &row).first->second;
    INFO(before.place << " and " << row.place);
    CHECK(before.meaning == row.meaning);
    CHECK(before.title == row.title);
    CHECK(before.need == row.need);
    CHECK(before.standard == row.standard);
  }
  CHECK(first.size() < rows.size());
}

TEST_CASE("the list puts the standard's sets first, keeps a property once and quotes commas", "[intake]") {
  const testing::TemporaryFolder folder;
  Reporter report("lists");
  const auto rows = read_property_lists(
      load_property_lists(
          {written(
               folder, "a.csv",
               "Panel_A,Two,Second,panel,IfcLabel,,,,must,none,second\n"
               "Panel_A,One,First,panel,IfcReal,Pa,0..9,1..2,useful,Pset_C.One|IfcWall.One,\"first, \"\"it\"\"\"\n"),
           written(folder, "b.csv",
                   "Qto_B,Width,Width,panel,IfcQuantityLength,m,0..9,1..2,must,,\n"
                   "Pset_C,Name,Name,panel,IfcLabel,,,,useful,,\n"
                   "Panel_A,One,First,panel,IfcReal,Pa,0..9,1..2,useful,none,said again\n"
                   "Panel_A,One,First,part,IfcReal,Pa,0..9,1..2,useful,none,of a part\n")},
          report),
      report);
  CHECK_FALSE(report.has_errors());
  const std::string text = property_list_text(rows);
  CHECK(text.substr(text.find("\nset,")) ==
        "\nset,property,title,on,measure,unit,range,usual,need,standard,meaning\n"
        "Pset_C,Name,Name,panel,IfcLabel,,,,useful,,\n"
        "Qto_B,Width,Width,panel,IfcQuantityLength,m,0..9,1..2,must,,\n"
        "Panel_A,Two,Second,panel,IfcLabel,,,,must,none,second\n"
        "Panel_A,One,First,panel,IfcReal,Pa,0..9,1..2,useful,Pset_C.One|IfcWall.One,\"first, \"\"it\"\"\"\n"
        "Panel_A,One,First,part,IfcReal,Pa,0..9,1..2,useful,none,of a part\n");
}

TEST_CASE("two lists that give one property another measure or unit are refused with both places", "[intake]") {
  const testing::TemporaryFolder folder;
  Reporter report("lists");
  const fs::path a = written(folder, "a.csv",
                             "Panel_A,Load,Load,panel,IfcReal,Pa,0..9,1..2,useful,none,\n"
                             "Panel_A,Size,Size,panel,IfcLengthMeasure,m,0..9,1..2,useful,none,\n");
  const fs::path b = written(folder, "b.csv",
                             "Panel_A,Load,Load,panel,IfcReal,N,0..9,1..2,useful,none,\n"
                             "Panel_A,Size,Size,panel,IfcReal,,0..9,1..2,useful,none,\n");
  read_property_lists(load_property_lists({a, b}, report), report);
  CHECK(intake_test::all_of(report.take()) ==
        "lists: error: 'Panel_A.Load' is IfcReal in Pa of 0..9, usually 1..2 in '" + a.string() +
            ":3' and IfcReal in N of 0..9, usually 1..2 in '" + b.string() +
            ":3'; give it one measure, unit and range, or leave one of the plugins out\n"
            "lists: error: 'Panel_A.Size' is IfcLengthMeasure in m of 0..9, usually 1..2 in '" +
            a.string() + ":4' and IfcReal of 0..9, usually 1..2 in '" + b.string() +
            ":4'; give it one measure, unit and range, or leave one of the plugins out\n");
}

TEST_CASE("a list says its title, its need and what the standard has", "[intake]") {
  struct Case {
    const char* name;
    const char* row;
    const char* fault;
  };
  const std::vector<Case> cases{
      {"no title", "Panel_A,Load,,panel,IfcLabel,,,,useful,none,", "' has no title; mend the line"},
      {"no need", "Panel_A,Load,Load,panel,IfcLabel,,,,,none,", "' has the need '', not must or useful; mend the line"},
      {"nothing of the standard", "Panel_A,Load,Load,panel,IfcLabel,,,,useful,,",
       "' does not say which property of the standard it stands beside; mend the line"},
      {"the standard's beside the standard's", "Pset_A,Load,Load,panel,IfcLabel,,,,useful,Pset_B.Load,",
       "' is the standard's and has a 'standard' beside it; mend the line"},
      {"two of one title",
       "Panel_A,Load,Load,part,IfcLabel,,,,useful,none,\nPanel_A,More,Load,material or part,IfcLabel,,,,useful,none,",
       ":4'; give each its own title"},
  };
  for (const Case& c : cases) {
    INFO(c.name);
    const testing::TemporaryFolder folder;
    Reporter report("lists");
    read_property_lists(load_property_lists({written(folder, "a.csv", std::string(c.row) + "\n")}, report), report);
    const std::string all = intake_test::all_of(report.take());
    CAPTURE(all);
    CHECK(all.find(c.fault) != std::string::npos);
  }
}

TEST_CASE("a list of an older program is read by its head, another column is a fault", "[intake]") {
  const testing::TemporaryFolder folder;
  Reporter report("lists");
  const auto rows = read_property_lists(
      {{"old", "set,property,on,measure,unit,range,usual,meaning\nPanel_A,Load,panel,IfcReal,N,0..9,1..2,\n"},
       {"older", "set,property,on,measure,unit,meaning\nPanel_A,Size,panel,IfcReal,,\n"}},
      report);
  CHECK_FALSE(report.has_errors());
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].title == "Panel_A.Load");
  CHECK(rows[0].usual);
  CHECK_FALSE(rows[1].range);
  read_property_lists({{"new", "set,property,colour\n"}, {"short", "set,property,on,measure,unit\n"}}, report);
  CHECK(intake_test::all_of(report.take()) ==
        "lists: error: the head in 'new:1' has the unknown column 'colour'; write the columns "
        "set,property,title,on,measure,unit,range,usual,need,standard,meaning\n"
        "lists: error: the head in 'short:1' has no column 'meaning'; write the columns "
        "set,property,title,on,measure,unit,range,usual,need,standard,meaning\n");
}

}  // namespace
}  // namespace panel_dossier
