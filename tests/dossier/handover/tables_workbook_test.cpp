// tables.xlsx and workshop.xlsx: heads with units, what goes to whom, hostile texts.
#include "core/dossier/handover/tables_workbook.h"

#include <catch2/catch.hpp>
#include <string>

#include "core/dossier/handover/workbook_file.h"
#include "core/dossier/handover/written_sheets.h"
#include "tests/dossier/handover/workbook_reading.h"

using namespace panel_dossier;
using test::SheetRows;

namespace {

std::vector<OutputTable> two_tables() {
  OutputTable areas{
      {"areas.csv",
       "areas",
       "One row a panel.",
       {{"mark", "", "mark of the panel"},
        {"net_area_m2", "m²", "net area"},
        {"costs", "", "costs", true},
        {"value", "as `unit` says", "amount"}}},
      {{std::string("=1+1"), 7.25, 100.0, 0.1}, {std::string("\xE2\x80\xAE\x1b"), Value{}, Value{}, 2.0}}};
  OutputTable saws{{"saws.csv", "saws", "One row a saw.", {{"saw", "", "its name"}}, true}, {{std::string("S1")}}};
  return {areas, saws};
}

test::ReadBook tables_of(const std::vector<OutputTable>& tables, TableReaders readers,
                         const std::string& name = "tables.xlsx") {
  write_tables(tables, readers, "Example Hall", "2026-11-25T02:00:00Z", test::temporary_file(name));
  return test::read_book(test::temporary_file(name));
}

}  // namespace

TEST_CASE("A head says the unit once, in brackets") {
  CHECK(column_head({"mass_kg", "kg", ""}) == "mass [kg]");
  CHECK(column_head({"net_area_m2", "m²", ""}) == "net area [m²]");
  CHECK(column_head({"conductivity_w_per_mk", "W/(m·K)", ""}) == "conductivity [W/(m·K)]");
  CHECK(column_head({"loads_kN", "kN", ""}) == "loads [kN]");
  CHECK(column_head({"length", "mm", ""}) == "length [mm]");
  CHECK(column_head({"cutting_list_pieces", "", ""}) == "cutting list pieces");
  CHECK(column_head({"value", "as `unit` says", ""}) == "value");
}

TEST_CASE("Each table is a sheet, with text as text and numbers as numbers") {
  const test::ReadBook book = tables_of(two_tables(), TableReaders::workshop);
  CHECK(book.names == std::vector<std::string>{"about", "areas", "saws"});
  CHECK(book.sheets.at("areas") == SheetRows{{"mark", "net area [m²]", "costs", "value"},
                                             {"=1+1", "7.25", "100", "0.1"},
                                             {"<U+202E><U+001B>", "", "", "2"}});
}

TEST_CASE("The client's workbook has no costs and no table of the workshop, in words either") {
  const test::ReadBook book = tables_of(two_tables(), TableReaders::client);
  CHECK(book.names == std::vector<std::string>{"about", "areas"});
  CHECK(book.sheets.at("areas").front() == std::vector<std::string>{"mark", "net area [m²]", "value"});
  for (const auto& row : book.sheets.at("about")) {
    for (const std::string& cell : row) CHECK(cell != "costs");
  }
}

TEST_CASE("A project without tables has a workbook that says so little") {
  CHECK(tables_of({}, TableReaders::client).names == std::vector<std::string>{"about"});
}

TEST_CASE("The same tables give the same bytes") {
  tables_of(two_tables(), TableReaders::workshop, "t1.xlsx");
  tables_of(two_tables(), TableReaders::workshop, "t2.xlsx");
  CHECK(test::bytes_of(test::temporary_file("t1.xlsx")) == test::bytes_of(test::temporary_file("t2.xlsx")));
}

TEST_CASE("A workbook that lost rows or cells on its way to the disk is not taken for written") {
  const auto file = test::temporary_file("counted.xlsx");
  WorkbookFile workbook(file, "counted", "2026-11-25T02:00:00Z");
  workbook.begin_sheet("one");
  // More than the reader takes at once, with texts that look like the ends of rows.
  for (int row = 0; row < 3000; ++row) workbook.row({std::string("</row></c>"), 1.0 * row, Value{}, std::string()});
  workbook.row({});
  workbook.begin_sheet("two");
  workbook.head({{"a", 0.0, 0}, {"b", 0.0, 0}});
  workbook.close();
  CHECK_NOTHROW(require_written(file, {{3000, 6000}, {1, 2}}));
  CHECK_THROWS_WITH(require_written(file, {{3001, 6000}, {1, 2}}),
                    "cannot write '" + file.string() +
                        "': sheet 1 came out with 3000 rows and 6000 cells for the 3001 and 6000 that were written; is "
                        "the disk full?");
  CHECK_THROWS(require_written(file, {{3000, 6000}, {1, 3}}));
  CHECK_THROWS(require_written(file, {{3000, 6000}, {1, 2}, {1, 1}}));
  CHECK_THROWS(require_written(test::temporary_file("none.xlsx"), {{1, 1}}));
}
