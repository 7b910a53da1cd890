// Where records lie, and which panel a row is of.
#include "core/intake/records/records_reader.h"

#include <catch2/catch.hpp>

#include "tests/intake/records/records_project.h"
#include "tests/support/workbook_bytes.h"

using namespace panel_dossier;
using namespace panel_dossier::intake_test;
using panel_dossier::testing::WorkbookBytes;

namespace {

std::string workbook_with(const std::string& sheet, const std::vector<std::string>& head,
                          const std::vector<std::string>& row) {
  WorkbookBytes book;
  book.sheets[sheet] = WorkbookBytes::sheet_of(WorkbookBytes::row(1, head) + WorkbookBytes::row(2, row));
  return book.bytes();
}

}  // namespace

TEST_CASE("A project without records reads none") {
  RecordsProject records;
  records.read();
  CHECK(records.told().empty());
  CHECK(records.files.empty());
  CHECK(records.first().records.empty());
}

TEST_CASE("A panel is named by mark, serial number or GlobalId, or by all three") {
  for (const char* row : {"P-02,,", ",26-2,", ",,1111111111111111111112", "P-02,26-2,1111111111111111111112"}) {
    INFO(row);
    RecordsProject records;
    records
        .with("inspections.csv",
              "mark,serial number,GlobalId,day,result\n" + std::string(row) + ",2026-03-01,ACCEPTED\n")
        .read();
    CHECK(records.told().empty());
    CHECK(records.first().records.empty());
    CHECK(records.second().records.size() == 1);
  }
}

TEST_CASE("Keys of different panels are an error") {
  CHECK(
      told_of("inspections.csv", "mark,serial number,day,result\nP-01,26-2,2026-03-01,ACCEPTED\n") ==
      "records/inspections.csv:2: error: mark 'P-01' is panel 'P-01', but serial number '26-2' is panel 'P-02'; write "
      "one panel a row\n");
  CHECK(told_of("inspections.csv", "mark,serial number,day,result\nP-01,26-7,2026-03-01,ACCEPTED\n") ==
        "records/inspections.csv:2: error: mark 'P-01' is panel 'P-01', but serial number '26-7' is no panel of the "
        "export; write one panel a row\n");
}

TEST_CASE("A serial number that the export leaves open is no fault beside a mark") {
  RecordsProject records;
  testing::remove(records.first().properties, "Pset_ManufacturerOccurrence.SerialNumber");
  records.with("inspections.csv", "mark,serial number,day,result\nP-01,26-7,2026-03-01,ACCEPTED\n").read();
  CHECK(records.told().empty());
  CHECK(records.first().records.size() == 1);
}

TEST_CASE("A serial number of two panels names none") {
  RecordsProject records;
  testing::replace(records.second().properties, "Pset_ManufacturerOccurrence", "SerialNumber",
                   testing::property_of("26-1"));
  records.with("inspections.csv", "serial number,day,result\n26-1,2026-03-01,ACCEPTED\n").read();
  CHECK(
      records.told() ==
      "records/inspections.csv:2: error: serial number '26-1' is that of several panels of the export; write one panel "
      "a row\n");
}

TEST_CASE("A mark that no panel has is warned of and kept") {
  RecordsProject records;
  records.with("inspections.csv", "mark,day,result\nP-09,2026-03-01,ACCEPTED\n").read();
  CHECK(
      records.told() ==
      "records/inspections.csv:2: warning: mark 'P-09' is of no panel of the export; the row counts for none; correct "
      "it, or take the row out\n");
  REQUIRE(records.project.stray_records.size() == 1);
  CHECK(records.project.stray_records[0].key == "mark 'P-09'");
  CHECK(records.project.stray_records[0].record.what == "ACCEPTED");
}

TEST_CASE("Records of a panel stand by day, then in the order of their rows") {
  RecordsProject records;
  records
      .with(
          "inspections.csv",
          "mark,day,result,note\nP-01,2026-03-05,ACCEPTED,c\nP-01,2026-03-01,REJECTED,a\nP-01,2026-03-05,ACCEPTED,d\n")
      .with("as_built.csv", "mark,day,note\nP-01,2026-03-02,b\n")
      .read();
  std::string order;
  for (const PanelRecord& record : records.first().records) order += record.words("note");
  CHECK(order == "abcd");
}

TEST_CASE("A table is a workbook, or a sheet of records.xlsx") {
  const std::vector<std::string> head{"mark", "day", "result"};
  const std::vector<std::string> row{"P-01", "2026-03-01", "ACCEPTED"};
  RecordsProject own;
  own.with("inspections.xlsx", workbook_with("Sheet1", head, row)).read();
  CHECK(own.told().empty());
  CHECK(own.first().records.size() == 1);
  RecordsProject all;
  all.with("records.xlsx", workbook_with("Inspections", head, row)).read();
  CHECK(all.told().empty());
  REQUIRE(all.first().records.size() == 1);
  CHECK(all.first().records[0].origin.table == "records/records.xlsx, sheet 'Inspections'");
  REQUIRE(all.files.size() == 1);
  CHECK(all.files[0].location == "records/records.xlsx");
}

TEST_CASE("A sheet or file of another name is warned of and not read") {
  RecordsProject records;
  records.with("records.xlsx", workbook_with("Diary", {"day"}, {"2026-03-01"})).with("diary.csv", "day\n").read();
  CHECK(records.told() ==
        "records/diary.csv: warning: is no table of records and is not read; the tables are as_built, inspections, "
        "batches, deliveries, installation, air_tests, weather_exposure, in_use, or sheets of these names in "
        "records.xlsx\n"
        "records/records.xlsx: warning: the sheet 'Diary' is no table of records and is not read; the tables are "
        "as_built, inspections, batches, deliveries, installation, air_tests, weather_exposure, in_use\n");
}

TEST_CASE("A workbook of one table is read whole, its other sheets told of") {
  const std::vector<std::string> head{"mark", "day", "result"};
  testing::WorkbookBytes book;
  book.sheets["inspections"] = testing::WorkbookBytes::sheet_of(
      testing::WorkbookBytes::row(1, head) + testing::WorkbookBytes::row(2, {"P-01", "2026-03-01", "ACCEPTED"}));
  book.sheets["more"] = testing::WorkbookBytes::sheet_of(
      testing::WorkbookBytes::row(1, head) + testing::WorkbookBytes::row(2, {"P-01", "2026-03-02", "REJECTED"}));
  book.sheets["Installation"] = testing::WorkbookBytes::sheet_of(
      testing::WorkbookBytes::row(1, head) + testing::WorkbookBytes::row(2, {"P-01", "2026-04-07", "ACCEPTED"}));
  RecordsProject records;
  records.with("inspections.xlsx", book.bytes()).read();
  CHECK(records.told() ==
        "records/inspections.xlsx: warning: the sheet 'more' is no table of records and is not read; the tables are "
        "as_built, inspections, batches, deliveries, installation, air_tests, weather_exposure, in_use\n");
  CHECK(records.first().records.size() == 2);
}

TEST_CASE("A table in another form is an error, another file a warning") {
  RecordsProject records;
  records.with("installation.xls", "mark").with("photo.jpg", "").with("records.ods", "").read();
  CHECK(records.told() ==
        "records/installation.xls: error: is neither a .csv nor a .xlsx file and is not read; save the table in one of "
        "these forms, or take the file out\n"
        "records/photo.jpg: warning: is neither a .csv nor a .xlsx file and is not read; keep records in tables only\n"
        "records/records.ods: error: is neither a .csv nor a .xlsx file and is not read; save the table in one of "
        "these forms, or take the file out\n");
}

TEST_CASE("A table in two places is an error") {
  RecordsProject records;
  records.with("inspections.csv", "mark,day,result\n")
      .with("inspections.xlsx", workbook_with("inspections", {"mark", "day", "result"}, {"P-01", "2026-03-01", "OPEN"}))
      .read();
  CHECK(
      records.told() ==
      "records/inspections.xlsx: error: the records 'inspections' stand in 'records/inspections.csv' too; keep them in "
      "one place\n");
}

TEST_CASE("A workbook that is none, and text that is none, are errors") {
  CHECK(has_errors([] {
    RecordsProject records;
    return records.with("inspections.xlsx", "mark,day,result\n").read().diagnostics;
  }()));
  CHECK(has_errors([] {
    RecordsProject records;
    return records.with("inspections.csv", std::string_view("mark\0,day", 9)).read().diagnostics;
  }()));
}

TEST_CASE("The setting names another folder inside the project") {
  RecordsProject records;
  records.with("site/inspections.csv", "mark,day,result\nP-01,2026-03-01,ACCEPTED\n");
  records.settings.set("intake.records_folder", std::string("records/site"));
  records.read();
  CHECK(records.told().empty());
  CHECK(records.first().records.size() == 1);
}

TEST_CASE("A folder outside of the project, or one that is not there, is an error where the setting names it") {
  RecordsProject outside;
  outside.settings.set("intake.records_folder", std::string("../elsewhere"));
  CHECK(
      outside.read().told() ==
      "../elsewhere: error: the folder of records lies outside of the project folder; not followed; copy it there and "
      "give its relative path\n");
  RecordsProject absent;
  absent.settings.set("intake.records_folder", std::string("diary"));
  CHECK(absent.read().told() ==
        "diary: error: the folder of records is not there, or is no folder; correct the setting intake.records_folder, "
        "or make the folder\n");
}

TEST_CASE("A link that leads out of the project is not followed") {
  testing::TemporaryFolder elsewhere;
  const auto target = elsewhere.write("inspections.csv", "mark,day,result\nP-01,2026-03-01,ACCEPTED\n");
  RecordsProject records;
  records.with(".keep", "");
  std::filesystem::create_symlink(target, records.folder() / "records/inspections.csv");
  CHECK(records.read().told() ==
        "records/inspections.csv: error: leads out of the project folder; not followed; copy the file there\n");
}

TEST_CASE("A delivery arrives on one day") {
  CHECK(told_of("deliveries.csv", "day,delivery,material\n2026-02-01,D-1,Softwood\n2026-02-03,D-1,Board\n") ==
        "records/deliveries.csv:3: error: delivery 'D-1' arrives on 2026-02-03, but on 2026-02-01 by row 2; write one "
        "day, or give each delivery its own number\n");
}

TEST_CASE("A test of the whole building is the building's") {
  RecordsProject records;
  records.with("air_tests.csv", "mark,day,q50 [m³/(h·m²)],document\n,2026-05-20,2.1,AIR-9\n").read();
  CHECK(records.told().empty());
  CHECK(records.project.properties.number("Panel_Air", "PermeabilityQ50")->value == 2.1);
  CHECK(records.project.properties.text("Panel_Air", "DocumentId")->value == "AIR-9");
  CHECK_FALSE(records.first().properties.number("Panel_Air", "PermeabilityQ50"));
}
