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
  std::ofstream(folder.path() / name) << "# comment\nset,property,on,measure,unit,range,usual,meaning\n" << rows;
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
               "Panel_A,Two,panel,IfcLabel,,,,second\nPanel_A,One,panel,IfcReal,Pa,0..9,1..2,\"first, \"\"it\"\"\"\n"),
           written(
               folder, "b.csv",
               "Qto_B,Width,panel,IfcQuantityLength,m,0..9,1..2,\nPset_C,Name,panel,IfcLabel,,,,\n"
               "Panel_A,One,panel,IfcReal,Pa,0..9,1..2,said again\nPanel_A,One,part,IfcReal,Pa,0..9,1..2,of a part\n")},
          report),
      report);
  CHECK_FALSE(report.has_errors());
  const std::string text = property_list_text(rows);
  CHECK(text.substr(text.find("\nset,")) ==
        "\nset,property,on,measure,unit,range,usual,meaning\n"
        "Pset_C,Name,panel,IfcLabel,,,,\n"
        "Qto_B,Width,panel,IfcQuantityLength,m,0..9,1..2,\n"
        "Panel_A,Two,panel,IfcLabel,,,,second\n"
        "Panel_A,One,panel,IfcReal,Pa,0..9,1..2,\"first, \"\"it\"\"\"\n"
        "Panel_A,One,part,IfcReal,Pa,0..9,1..2,of a part\n");
}

TEST_CASE("two lists that give one property another measure or unit are refused with both places", "[intake]") {
  const testing::TemporaryFolder folder;
  Reporter report("lists");
  const fs::path a = written(
      folder, "a.csv", "Panel_A,Load,panel,IfcReal,Pa,0..9,1..2,\nPanel_A,Size,panel,IfcLengthMeasure,m,0..9,1..2,\n");
  const fs::path b =
      written(folder, "b.csv", "Panel_A,Load,panel,IfcReal,N,0..9,1..2,\nPanel_A,Size,panel,IfcReal,,0..9,1..2,\n");
  read_property_lists(load_property_lists({a, b}, report), report);
  CHECK(intake_test::all_of(report.take()) ==
        "lists: error: 'Panel_A.Load' is IfcReal in Pa of 0..9, usually 1..2 in '" + a.string() +
            ":3' and IfcReal in N of 0..9, usually 1..2 in '" + b.string() +
            ":3'; give it one measure, unit and range, or leave one of the plugins out\n"
            "lists: error: 'Panel_A.Size' is IfcLengthMeasure in m of 0..9, usually 1..2 in '" +
            a.string() + ":4' and IfcReal of 0..9, usually 1..2 in '" + b.string() +
            ":4'; give it one measure, unit and range, or leave one of the plugins out\n");
}

}  // namespace
}  // namespace panel_dossier
