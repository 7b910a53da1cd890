// The description of the tables of records agrees with the lists of properties that it feeds.
#include "core/intake/records/record_tables.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>

#include "core/api/testing/temporary_folder.h"
#include "tests/intake/test_support.h"

using namespace panel_dossier;
using namespace panel_dossier::intake_test;

namespace {

const std::filesystem::path kSchemaFolder = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas";

std::vector<PropertyRow> all_properties() {
  Reporter report("the lists of properties");
  std::vector<std::filesystem::path> lists = plugin_files("properties.csv");
  lists.insert(lists.begin(), kSchemaFolder / "model_properties.csv");
  return read_property_lists(load_property_lists(lists, report), report);
}

std::string fault_of_tables(const std::string& text) {
  testing::TemporaryFolder folder;
  folder.write("records.csv", text);
  try {
    read_record_tables(folder.path(), {});
  } catch (const std::runtime_error& error) {
    return std::string(error.what()).substr(folder.path().string().size() + 1);
  }
  return "none";
}

}  // namespace

TEST_CASE("Every property that a record feeds is listed, of that kind and unit, and its range counts") {
  const std::vector<PropertyRow> properties = all_properties();
  std::size_t fed = 0;
  for (const RecordTable& table : read_record_tables(kSchemaFolder, properties)) {
    for (const RecordColumn& column : table.columns) {
      if (column.property.empty()) continue;
      ++fed;
      INFO(table.name << " " << column.name);
      const auto row = std::find_if(properties.begin(), properties.end(), [&](const PropertyRow& one) {
        return one.set + "." + one.property == column.property;
      });
      REQUIRE(row != properties.end());
      CHECK(column.unit == row->unit);
      CHECK((column.kind == RecordKind::number) == row->range.has_value());
      CHECK((column.kind == RecordKind::day) == (row->measure == "IfcDate"));
      if (row->range) CHECK(column.range->most == row->range->most);
    }
  }
  CHECK(fed >= 18);
}

TEST_CASE("Every table has a day that each row needs, every number a range, every word its words") {
  for (const RecordTable& table : read_record_tables(kSchemaFolder, all_properties())) {
    INFO(table.name);
    REQUIRE(table.column("day") != nullptr);
    CHECK(table.column("day")->is_required);
    CHECK(table.column("by") != nullptr);
    for (const RecordColumn& column : table.columns) {
      INFO(column.name);
      if (column.kind == RecordKind::number) CHECK(column.range.has_value());
      if (column.kind == RecordKind::word) CHECK_FALSE(column.words.empty());
    }
  }
}

TEST_CASE("A faulty description is refused with its line") {
  const std::string head = "table,column,kind,unit,need,feeds,range,meaning\n";
  CHECK(fault_of_tables("table,column\n") ==
        "records.csv:1: the head is not table,column,kind,unit,need,feeds,range,meaning");
  CHECK(fault_of_tables(head + "x,day,day,,row\n") == "records.csv:2: the line has not the fields of the head");
  CHECK(fault_of_tables(head + "x,day,date,,row,,,\n") == "records.csv:2: 'date' is no kind of column");
  CHECK(fault_of_tables(head + "x,day,day,,row,,,\nx,day,day,,row,,,\n") ==
        "records.csv:3: the column 'day' stands twice");
  CHECK(fault_of_tables(head) == "records.csv:1: no table of records is described");
}
