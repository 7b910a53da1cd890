// What is wrong with a table of records, told by row and column; what is right, read in any way it may be written.
#include <catch2/catch.hpp>

#include "tests/intake/records/records_project.h"

using namespace panel_dossier;
using namespace panel_dossier::intake_test;

namespace {

struct WrongTable {
  const char* label;
  const char* file;
  const char* text;
  const char* told;
};

}  // namespace

TEST_CASE("A wrong cell, head or row of the records is an error with its place") {
  const auto wrong = GENERATE(values<WrongTable>({
      {"a day that does not exist", "inspections.csv", "mark,day,result\nP-01,2026-02-30,ACCEPTED\n",
       "records/inspections.csv:2:2: error: column 'day': '2026-02-30' is no day YYYY-MM-DD; write the day as "
       "2026-03-01, or as a date of the workbook\n"},
      {"no day", "inspections.csv", "mark,day,result\nP-01,,ACCEPTED\n",
       "records/inspections.csv:2:2: error: column 'day': is empty; every row needs it\n"},
      {"no such result", "inspections.csv", "mark,day,result\nP-01,2026-03-01,fine\n",
       "records/inspections.csv:2:3: error: column 'result': 'fine' is none of ACCEPTED, REJECTED, OPEN; write one of "
       "them\n"},
      {"no column of results", "inspections.csv", "mark,day\nP-01,2026-03-01\n",
       "records/inspections.csv: error: there is no column 'result'; add it: every row needs it\n"},
      {"no key", "inspections.csv", "day,result\n2026-03-01,ACCEPTED\n",
       "records/inspections.csv: error: no column names the panel; write the mark, serial number or GlobalId under a "
       "head of that name\n"},
      {"a row of no panel", "inspections.csv", "mark,day,result\n,2026-03-01,ACCEPTED\n",
       "records/inspections.csv:2: error: the row names no panel; write its mark, serial number or GlobalId\n"},
      {"a length without unit", "as_built.csv", "mark,day,width\nP-01,2026-03-01,2400\n",
       "records/as_built.csv: error: the column 'width' has no unit; write its unit behind its title, [m] or another "
       "of "
       "its kind\n"},
      {"a length in kg", "as_built.csv", "mark,day,width [kg]\nP-01,2026-03-01,2400\n",
       "records/as_built.csv: error: the column 'width' is in 'kg', from which it cannot be read; write its unit "
       "behind "
       "its title, [m] or another of its kind\n"},
      {"a length that cannot be", "as_built.csv", "mark,day,width [m]\nP-01,2026-03-01,2400\n",
       "records/as_built.csv:2:3: error: column 'width': '2400' is 2400 m, which cannot be: it goes from 0.02 to 100 "
       "m; "
       "correct the number, or the unit in the head\n"},
      {"a temperature that cannot be", "in_use.csv", "mark,day,what,temperature [°C]\nP-01,2027-03-01,READING,400\n",
       "records/in_use.csv:2:4: error: column 'temperature': '400' is 400 °C, which cannot be: it goes from -60 to 100 "
       "°C; correct the number, or the unit in the head\n"},
      {"a reading of nothing", "in_use.csv", "mark,day,what,note\nP-01,2027-03-01,READING,dry\n",
       "records/in_use.csv:2: error: is a READING without a moisture content, temperature or relative humidity; write "
       "what was read, or another word under 'what'\n"},
      {"a report of no test", "air_tests.csv", "mark,day,q50 [m³/(h·m²)],document\nP-01,2026-03-01,,AIR-9\n",
       "records/air_tests.csv:2: error: names the document 'AIR-9' without q50 or n50, and is of no test; write what "
       "was measured and its document into one row\n"},
      {"covered before it stood", "weather_exposure.csv",
       "mark,day,erected,covered\nP-01,2026-05-20,2026-05-11,2026-05-01\n",
       "records/weather_exposure.csv:2: error: is covered on 2026-05-01, before it was erected on 2026-05-11; correct "
       "one of the days\n"},
      {"a head twice", "as_built.csv", "mark,day,Diagonal 1 [m],diagonal_1 [m]\nP-01,2026-03-01,3.6,3.6\n",
       "records/as_built.csv: error: the column 'diagonal 1' stands twice; keep one of them\n"},
      {"a unit of a text", "batches.csv", "mark,day,batch [kg]\nP-01,2026-03-01,B1\n",
       "records/batches.csv: error: the column 'batch' has a unit, but is no number; take the unit away\n"},
      {"a head that is not known", "inspections.csv", "mark,day,result,colour\nP-01,2026-03-01,ACCEPTED,red\n",
       "records/inspections.csv: warning: the column 'colour' is not known in inspections and is not read; known are "
       "mark, serial number, GlobalId, day, by, subject, result, document, note\n"},
  }));
  INFO(wrong.label);
  CHECK(told_of(wrong.file, wrong.text) == wrong.told);
}

TEST_CASE("Nothing of the records counts when a row is wrong") {
  RecordsProject records;
  records.with("inspections.csv", "mark,day,result\nP-01,2026-03-01,ACCEPTED\nP-02,2026-02-30,ACCEPTED\n").read();
  CHECK(has_errors(records.diagnostics));
  CHECK_FALSE(records.first().properties.text("Panel_Inspection", "Result"));
}

TEST_CASE("Heads are read in either case, lengths in mm, words in small letters") {
  RecordsProject records;
  records.with("as_built.csv", "Mark;Day;By;Width [mm];Frame_opening_width [cm]\nP-01;2026-03-01;Checker;2401,5;242\n")
      .with("inspections.csv", "MARK,DAY,RESULT\nP-01,2026-03-02,accepted\n")
      .read();
  CHECK_FALSE(has_errors(records.diagnostics));
  REQUIRE(records.first().records.size() == 2);
  const PanelRecord& measured = records.first().records[0];
  CHECK(measured.number("width")->value == Approx(2.4015));
  CHECK(measured.number("frame opening width")->value == Approx(2.42));
  CHECK(measured.what == "width 2401.5 mm, frame opening width 2420 mm");
  CHECK(measured.by == "Checker");
  CHECK(measured.origin.row == "2");
  CHECK(measured.origin.source == "Checker, 2026-03-01");
  CHECK(describe(measured.number("width")->origin) == "records/as_built.csv, row 2, width (Checker, 2026-03-01)");
  CHECK(records.first().records[1].words("result") == "ACCEPTED");
}

TEST_CASE("A moisture content is a ratio, written as one or in %") {
  RecordsProject records;
  records
      .with("in_use.csv",
            "mark,day,what,place,moisture content [%],temperature [°C]\nP-01,2027-03-01,READING,sole plate,14,8.5\n")
      .read();
  CHECK(records.told().empty());
  REQUIRE(records.first().records.size() == 1);
  CHECK(records.first().records[0].number("moisture content")->value == Approx(0.14));
  CHECK(records.first().records[0].what == "READING, place sole plate, moisture content 14 %, temperature 8.5 °C");
}
