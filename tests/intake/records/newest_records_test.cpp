// The newest record counts, and what contradicts it or the export is withheld with both named.
#include "core/intake/records/newest_records.h"

#include <catch2/catch.hpp>

#include "tests/intake/records/records_project.h"

using namespace panel_dossier;
using namespace panel_dossier::intake_test;

namespace {

std::string words_of(const Panel& panel, const char* set, const char* name) {
  const auto text = panel.properties.text(set, name);
  return text ? text->value : "none";
}

std::string withheld_of(const Panel& panel, const char* name) {
  const auto found = panel.properties.withheld().find(name);
  return found == panel.properties.withheld().end() ? "none" : found->second.why;
}

}  // namespace

TEST_CASE("The newest record gives what the export leaves open, with its row as origin") {
  RecordsProject records;
  records.with("as_built.csv", "mark,day,width [mm],height [mm]\nP-01,2026-03-04,2402,\nP-01,2026-03-02,2407,2701\n")
      .read();
  CHECK(records.told().empty());
  const auto width = records.first().properties.number("Panel_AsBuilt", "Width");
  REQUIRE(width);
  CHECK(width->value == Approx(2.402));
  CHECK(width->origin.kind == OriginKind::input_table);
  CHECK(width->origin.table == "records/as_built.csv");
  CHECK(width->origin.row == "2");
  CHECK(width->origin.property == "Panel_AsBuilt.Width");
  // The newest row leaves the height empty.
  CHECK(records.first().properties.number("Panel_AsBuilt", "Height")->value == Approx(2.701));
  CHECK(records.first().records.size() == 2);
}

TEST_CASE("A record that says what the export says leaves it as it is") {
  RecordsProject records;
  testing::put(records.first().properties, "Panel_AsBuilt", "Width", 2.402);
  records.with("as_built.csv", "mark,day,width [mm]\nP-01,2026-03-04,2402\n").read();
  CHECK(records.told().empty());
  CHECK(records.first().properties.number("Panel_AsBuilt", "Width")->origin.kind == OriginKind::export_file);
}

TEST_CASE("Export and record that differ are both named, and neither counts") {
  RecordsProject records;
  records.first().properties.add("Panel_AsBuilt", "Width",
                                 {2.4, "m", testing::origin_of("IfcPropertySingleValue", "Panel_AsBuilt.Width")});
  records.with("as_built.csv", "mark,day,width [mm]\nP-01,2026-03-04,2402\n").read();
  CHECK(records.told() ==
        "records/as_built.csv:2: warning: 1111111111111111111111: 'Panel_AsBuilt.Width' of 'P-01' is 2.4 m (line 7 of "
        "the export), but 2.402 m (records/as_built.csv, row 2) by the newest record, and is not used; correct one of "
        "them\n");
  CHECK_FALSE(records.first().properties.number("Panel_AsBuilt", "Width"));
  CHECK(
      withheld_of(records.first(), "Panel_AsBuilt.Width") ==
      "Panel_AsBuilt.Width of 'P-01' is 2.4 m (line 7 of the export), but 2.402 m (records/as_built.csv, row 2) by the "
      "newest record; correct one of them");
  CHECK(records.first().contradictions.contains("as_built"));
}

TEST_CASE("Two rows of one day that differ are a contradiction, two of different days are not") {
  RecordsProject records;
  records
      .with("as_built.csv",
            "mark,day,width [mm]\nP-01,2026-03-04,2402\nP-01,2026-03-04,2403\nP-02,2026-03-04,2402\nP-02,2026-03-05,"
            "2403\n")
      .read();
  CHECK_FALSE(records.first().properties.number("Panel_AsBuilt", "Width"));
  CHECK(withheld_of(records.first(), "Panel_AsBuilt.Width") ==
        "Panel_AsBuilt.Width of 'P-01' is 2.403 m (records/as_built.csv, row 3) and 2.402 m (records/as_built.csv, row "
        "2) on one day, 2026-03-04; correct one of them");
  CHECK(records.first().contradictions.contains("as_built"));
  CHECK(records.second().properties.number("Panel_AsBuilt", "Width")->value == Approx(2.403));
  CHECK(records.second().contradictions.empty());
}

TEST_CASE("A rejection is lifted by a later acceptance of the same subject alone") {
  RecordsProject records;
  records
      .with("inspections.csv",
            "mark,day,by,subject,result\n"
            "P-01,2026-03-02,Checker,frame,REJECTED\nP-01,2026-03-03,Checker,frame,ACCEPTED\n"
            "P-02,2026-03-02,Checker,frame,REJECTED\nP-02,2026-03-03,Checker,lining,ACCEPTED\n")
      .read();
  CHECK(records.told().empty());
  CHECK(words_of(records.first(), "Panel_Inspection", "Result") == "ACCEPTED");
  CHECK(words_of(records.first(), "Panel_Inspection", "Date") == "2026-03-03");
  CHECK(words_of(records.first(), "Panel_Inspection", "Inspector") == "Checker");
  CHECK(words_of(records.second(), "Panel_Inspection", "Result") == "REJECTED");
  CHECK(words_of(records.second(), "Panel_Inspection", "Date") == "2026-03-02");
}

TEST_CASE("Two results of one subject and day are a contradiction") {
  RecordsProject records;
  records
      .with("inspections.csv",
            "mark,day,subject,result\nP-01,2026-03-02,frame,REJECTED\nP-01,2026-03-02,Frame,ACCEPTED\n"
            "P-02,2026-03-02,frame,OPEN\nP-02,2026-03-02,lining,ACCEPTED\n")
      .read();
  CHECK(words_of(records.first(), "Panel_Inspection", "Result") == "none");
  CHECK(withheld_of(records.first(), "Panel_Inspection.Result") ==
        "Panel_Inspection.Result of 'P-01' is 'ACCEPTED' (records/inspections.csv, row 3) and 'REJECTED' "
        "(records/inspections.csv, row 2) on one day, 2026-03-02; correct one of them");
  CHECK(words_of(records.second(), "Panel_Inspection", "Result") == "OPEN");
}

TEST_CASE("A day of the lining moves no day of the installation") {
  RecordsProject records;
  records
      .with("installation.csv",
            "mark,day,by,result,lining day\nP-01,2026-05-04,Team A,ACCEPTED,\nP-01,2026-05-20,Team B,,2026-05-19\n")
      .read();
  CHECK(words_of(records.first(), "Panel_Install", "Date") == "2026-05-04");
  CHECK(words_of(records.first(), "Panel_Install", "Team") == "Team A");
  CHECK(words_of(records.first(), "Panel_Install", "LiningDate") == "2026-05-19");
}

TEST_CASE("Days of exposure are the panel's") {
  RecordsProject records;
  records
      .with("weather_exposure.csv",
            "mark,day,erected,covered\nP-01,2026-05-04,2026-05-04,\nP-01,2026-05-20,2026-05-04,2026-05-18\n")
      .read();
  CHECK(words_of(records.first(), "Panel_WeatherExposure", "From") == "2026-05-04");
  CHECK(words_of(records.first(), "Panel_WeatherExposure", "Until") == "2026-05-18");
}

TEST_CASE("A newest row that says the membrane is open again has no older cover") {
  RecordsProject records;
  records
      .with("weather_exposure.csv",
            "mark,day,erected,covered\nP-01,2026-05-04,2026-04-01,2026-05-02\nP-01,2026-05-20,2026-05-18,\n")
      .read();
  CHECK(words_of(records.first(), "Panel_WeatherExposure", "From") == "2026-05-18");
  CHECK(words_of(records.first(), "Panel_WeatherExposure", "Until") == "none");
}

TEST_CASE("A newer air test has not the report of an older one") {
  RecordsProject records;
  records
      .with(
          "air_tests.csv",
          "mark,day,q50 [m³/(h·m²)],document,note\n,2026-05-04,30,AIR-501,\n,2026-05-20,3.0,,\n,2026-05-21,,,sealed\n")
      .read();
  CHECK(records.project.properties.number("Panel_Air", "PermeabilityQ50")->value == 3.0);
  CHECK_FALSE(records.project.properties.text("Panel_Air", "DocumentId"));
}

TEST_CASE("Of two air tests of one day the report of one is not that of the other") {
  RecordsProject records;
  records
      .with("air_tests.csv",
            "mark,day,q50 [m³/(h·m²)],n50 [1/h],document\nP-01,2026-05-20,3.0,,AIR-501\nP-01,2026-05-20,,0.6,\n")
      .read();
  CHECK(words_of(records.first(), "Panel_Air", "DocumentId") == "none");
  CHECK(withheld_of(records.first(), "Panel_Air.DocumentId") ==
        "Panel_Air.DocumentId of 'P-01' is 'AIR-501' (records/air_tests.csv, row 2), but records/air_tests.csv, row 3 "
        "of that day names no document; correct one of them");
}

TEST_CASE("A row of an installation without a result still has a day and a team") {
  RecordsProject records;
  records
      .with("installation.csv",
            "mark,day,by,result,lining day\nP-01,2026-05-04,Team A,,\nP-01,2026-05-20,Team B,,2026-05-19\n"
            "P-02,2026-05-20,Team B,,2026-05-19\n")
      .read();
  CHECK(words_of(records.first(), "Panel_Install", "Date") == "2026-05-04");
  CHECK(words_of(records.first(), "Panel_Install", "Team") == "Team A");
  CHECK(words_of(records.first(), "Panel_Install", "Result") == "none");
  CHECK(words_of(records.second(), "Panel_Install", "Date") == "none");
}
