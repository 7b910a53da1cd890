// Wrong records of workshop and site that no check must believe.
#include <string>
#include <utility>

#include "tests/consistency/wrong_project.h"

namespace panel_dossier::consistency {

namespace {

// S0-02 was inspected on 2026-03-03 and installed on 2026-04-07 by the export, and is assessed on 2026-06-01.

/// A table of records that adds to what the export says, which passes by itself.
WrongCase recorded(const char* label, const char* file, const char* text, const char* words) {
  return {label, put_records(file, text), "quantities.records", words};
}

/// A batch as the export has it, of a delivery that came before.
Edit sound_batch() {
  return both(
      put_records("batches.csv",
                  "mark,day,batch,material,delivery\n"
                  "S0-02,2026-02-25,B1-softwood,Structural softwood C24,D-1\n"),
      put_records("deliveries.csv", "day,by,delivery,material\n2026-02-16,Sawmill,D-1,Structural softwood C24\n"));
}

WrongCase batch(const char* label, const char* file, const char* text, const char* words) {
  return {label, put_records(file, text), "quantities.batches", words, sound_batch()};
}

/// Of the whole building, against one that was tested once its panels stood.
WrongCase building_test(const char* label, const char* rows, const char* words) {
  const std::string head = "mark,day,by,q50 [m³/(h·m²)],document\n";
  return {label, put_records("air_tests.csv", head + rows), "thermal.air_permeability", words,
          put_records("air_tests.csv", head + ",2026-05-20,tb,3.0,AIR-501\n")};
}

Edit dry_reading() {
  return put_records("in_use.csv",
                     "mark,day,what,place,moisture content [%]\nS0-02,2026-05-20,READING,sole plate,14\n");
}

WrongCase reading(const char* label, const char* text, const char* words) {
  return {label, put_records("in_use.csv", text), "thermal.moisture_in_use", words, dry_reading()};
}

WrongCase refused(const char* label, const char* file, const char* text, const char* words) {
  return {label, put_records(file, text), "refused", words};
}

const RegisterWrongCases kRecordsCases{{
    recorded("a panel made after its inspection", "as_built.csv", "mark,day,made\nS0-02,2026-03-05,2026-03-04\n",
             "before it was made on 2026-03-04 (records/as_built.csv, row 2)"),
    recorded("another day of inspection than the export's", "inspections.csv",
             "mark,day,result\nS0-02,2026-03-04,ACCEPTED\n", "Panel_Inspection.Date of 'S0-02' is '2026-03-03'"),
    recorded("a record rejected where the export says accepted", "inspections.csv",
             "mark,day,result\nS0-02,2026-03-03,REJECTED\n", "Panel_Inspection.Result of 'S0-02' is 'ACCEPTED'"),
    recorded("two results of one day", "inspections.csv",
             "mark,day,by,subject,result\nS0-02,2026-03-03,Workshop quality inspector,frame,ACCEPTED\n"
             "S0-02,2026-03-03,Workshop quality inspector,frame,REJECTED\n",
             "on one day, 2026-03-03"),
    recorded("a panel delivered after it was installed", "deliveries.csv", "mark,day,delivery\nS0-02,2026-04-09,D-9\n",
             "before the delivery of 2026-04-09"),
    recorded("a reading before the panel was installed", "in_use.csv",
             "mark,day,what,note\nS0-02,2026-04-01,INSPECTION,dry\n", "lies before the panel was installed"),
    recorded("a repair in the future", "in_use.csv", "mark,day,what,note\nS0-02,2026-06-02,REPAIR,sealed\n",
             "lies after project.assessment_date 2026-06-01"),
    recorded("installed while it stood rejected", "inspections.csv",
             "mark,day,by,subject,result\nS0-02,2026-03-02,Workshop quality inspector,frame,REJECTED\n"
             "S0-02,2026-04-20,Workshop quality inspector,frame,ACCEPTED\n"
             "S0-02,2026-03-03,Workshop quality inspector,,ACCEPTED\n",
             "stood rejected"),
    recorded("another day of installation than the export's", "installation.csv",
             "mark,day,by,result\nS0-02,2026-04-08,Erection team A,ACCEPTED\n",
             "Panel_Install.Date of 'S0-02' is '2026-04-07'"),
    recorded("a panel still rejected", "inspections.csv",
             "mark,day,by,subject,result\nS0-02,2026-05-04,Workshop quality inspector,lining,REJECTED\n",
             "Panel_Inspection.Result of 'S0-02'"),
    {"a size as built that the export does not bear out",
     put_records("as_built.csv", "mark,day,width [mm]\nS0-02,2026-03-03,2680\n"), "quantities.as_built_size",
     "Panel_AsBuilt.Width of 'S0-02' is 2.687 m"},
    {"a size as built in m, entered as mm a hundredth of it",
     both(drop_property("Panel_AsBuilt.Width"),
          put_records("as_built.csv", "mark,day,width [mm]\nS0-02,2026-03-03,26.87\n")),
     "quantities.as_built_size", "outside of the usual"},
    {"an air test that the export does not bear out",
     put_records("air_tests.csv", "mark,day,q50 [m³/(h·m²)],document\nS0-02,2026-03-03,7.9,AIR-501\n"),
     "thermal.air_permeability", "Panel_Air.PermeabilityQ50 of 'S0-02'"},
    batch("a batch used before it was delivered", "deliveries.csv",
          "day,delivery,material\n2026-02-26,D-1,Structural softwood C24\n", "before its delivery 'D-1' arrived"),
    batch("a batch of a delivery that nobody entered", "batches.csv",
          "mark,day,batch,material,delivery\nS0-02,2026-02-25,B1-softwood,Structural softwood C24,D-7\n",
          "which the records of deliveries do not have"),
    batch("a batch from a delivery of other material", "deliveries.csv",
          "day,delivery,material\n2026-02-16,D-1,Stone wool slab\n",
          "but its delivery 'D-1' brought 'Stone wool slab'"),
    batch("a batch of a material that nobody knows", "batches.csv",
          "mark,day,batch,material,delivery\nS0-02,2026-02-25,B1-softwood,Oak,D-1\n",
          "is of 'Oak', of which the panel has nothing by the export"),
    batch("a batch of a part that nobody knows", "batches.csv",
          "mark,day,batch,part,delivery\nS0-02,2026-02-25,B1-softwood,Post 77,D-1\n", "is of part 'Post 77'"),
    batch("a batch built in after the panel was installed", "batches.csv",
          "mark,day,batch,material,delivery\nS0-02,2026-05-20,B1-softwood,Structural softwood C24,D-1\n",
          "was built in on 2026-05-20, after the panel was installed on 2026-04-07"),
    recorded("a lining fixed before the panel was installed", "installation.csv",
             "mark,day,by,result,lining day\nS0-02,2026-04-07,Erection team A,ACCEPTED,2026-04-01\n",
             "before the panel was installed"),
    {"an installation without a result, on a day before the inspection",
     put_records("installation.csv", "mark,day,by,result\nS0-02,2026-02-07,Erection team A,\n"), "quantities.records",
     "before it was inspected", both(drop_property("Panel_Install.Date"), drop_property("Panel_Install.Result"))},
    building_test("an air test of the building in the future", ",2027-04-01,tb,3.0,AIR-501\n",
                  "lies after project.assessment_date 2026-06-01"),
    building_test("an air test of the building before it was built", ",2019-05-20,tb,3.0,AIR-501\n",
                  "lies before panel"),
    building_test("a new air test on the report of the old one", ",2026-05-02,tb,30,AIR-501\n,2026-05-20,tb,3.0,\n",
                  "names no test report"),
    refused("a table of records in another form", "installation.xls", "mark,day,by,result\n",
            "is neither a .csv nor a .xlsx file and is not read"),
    refused("a day with a tail", "inspections.csv", "mark,day,result\nS0-02,2026-03-20Tgarbage,ACCEPTED\n",
            "is no day"),
    batch("a batch that the export calls otherwise", "batches.csv",
          "mark,day,batch,material,delivery\nS0-02,2026-02-25,B9-softwood,Structural softwood C24,D-1\n",
          "is 'B1-softwood' by the export, but 'B9-softwood' by the records"),
    {"a claim that the export states otherwise",
     both(sound_batch(),
          put_records("deliveries.csv", "day,delivery,claim,certificate\n2026-02-16,D-1,RECLAIMED,COC-401\n")),
     "carbon.chain_of_custody", "is 'CERTIFIED' by the export, but 'RECLAIMED' by the records"},
    {"a mark that no panel has",
     put_records("batches.csv",
                 "mark,day,batch,delivery\nS0-02,2026-02-25,B1-softwood,D-1\nX9-99,2026-02-25,B1-softwood,D-1\n"),
     "quantities.record_keys", "records/batches.csv, row 3 mark 'X9-99'", sound_batch()},
    reading("wet wood", "mark,day,what,place,moisture content [%]\nS0-02,2026-05-20,READING,sole plate,24\n",
            "is more than wood may hold for long"),
    reading("a meter that reads nothing",
            "mark,day,what,place,moisture content [%]\nS0-02,2026-05-20,READING,sole plate,0.14\n",
            "is none that can be"),
    reading("two readings of one place and day",
            "mark,day,what,place,moisture content [%]\nS0-02,2026-05-20,READING,head,12\nS0-02,2026-05-20,READING,head,"
            "15\n",
            "is not the only reading of that place and day"),
    refused("a record of a day that does not exist", "inspections.csv", "mark,day,result\nS0-02,2026-02-30,ACCEPTED\n",
            "records/inspections.csv:2:2: error: column 'day': '2026-02-30' is no day"),
    refused("a record whose keys name two panels", "inspections.csv",
            "mark,serial number,day,result\nS0-02,2026-1001,2026-03-03,ACCEPTED\n",
            "is panel 'S0-02', but serial number '2026-1001' is panel 'S0-01'"),
    refused("a size as built in m under a head of mm", "as_built.csv", "mark,day,width [mm]\nS0-02,2026-03-03,2.687\n",
            "which cannot be: it goes from 0.02 to 100 m"),
    refused("a delivery of two days", "deliveries.csv", "day,delivery\n2026-02-16,D-1\n2026-02-17,D-1\n",
            "delivery 'D-1' arrives on 2026-02-17, but on 2026-02-16"),
    refused("a membrane covered before it stood", "weather_exposure.csv",
            "mark,day,erected,covered\nS0-02,2026-04-20,2026-04-20,2026-04-07\n", "before it was erected"),
    refused("a reading that cannot be", "in_use.csv", "mark,day,what,temperature [°C]\nS0-02,2026-05-20,READING,400\n",
            "which cannot be"),
}};

}  // namespace

}  // namespace panel_dossier::consistency
