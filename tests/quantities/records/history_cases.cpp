// Cases of the rows of the tables of records: their order, their batches, and the panels that they name.
#include <string>

#include "core/api/testing/check_cases.h"
#include "core/api/testing/records.h"
#include "tests/quantities/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::quantities::test;

namespace {

/// Adds a row to the records of the first panel, which was inspected on 2026-03-02 and installed on 2026-04-06.
Change recorded(PanelRecord record) {
  return change_first([record](Panel& panel) { add_record(panel, record); });
}

Change made_on(const char* day) {
  return recorded(record_of("as_built", "2026-03-02", {cell_of("made", day)}));
}

const RegisterCases kHistory{
    {.check = "quantities.records",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "made, inspected, delivered, installed and read in this order",
          .change = together(
              {made_on("2026-02-27"),
               recorded(record_of("batches", "2026-02-26", {cell_of("batch", "B1"), cell_of("delivery", "D-1")})),
               recorded(record_of("inspections", "2026-02-26",
                                  {cell_of("subject", "frame"), cell_of("result", "ACCEPTED")})),
               recorded(record_of("deliveries", "2026-04-02", {cell_of("delivery", "D-9")})),
               recorded(record_of("in_use", "2026-05-06", {cell_of("what", "INSPECTION")}))}),
          .verdict = Verdict::pass,
          .value = std::string("ACCEPTED"),
          .also_moves = {"*"}},
         {.label = "inspected before it was made",
          .change = together({made_on("2026-03-03"),
                              recorded(record_of("inspections", "2026-03-02", {cell_of("result", "ACCEPTED")}, 5))}),
          .verdict = Verdict::fail,
          .value = std::string("ACCEPTED"),
          .reason =
              "the panel was inspected on 2026-03-02 (Panel_Inspection.Date), before it was made on 2026-03-03 "
              "(records/as_built.csv, row 2); the measuring of 2026-03-02 (records/as_built.csv, row 2) lies before "
              "the day on which the panel was made, 2026-03-03 (records/as_built.csv, row 2)",
          .also_moves = {"quantities.record_keys"}},
         {.label = "its frame inspected before it was made",
          .change = together({set_of_panels("Panel_Inspection.Date", "2026-02-26"), made_on("2026-02-27"),
                              recorded(record_of("inspections", "2026-02-26",
                                                 {cell_of("subject", "frame"), cell_of("result", "ACCEPTED")}))}),
          .verdict = Verdict::pass,
          .value = std::string("ACCEPTED"),
          .also_moves = {"quantities.record_keys"}},
         {.label = "a batch that went in after the panel was made",
          .change = together(
              {made_on("2026-02-27"), recorded(record_of("batches", "2026-02-28", {cell_of("batch", "B1")}, 4))}),
          .verdict = Verdict::fail,
          .value = std::string("ACCEPTED"),
          .reason = "the use of batch 'B1' of 2026-02-28 (records/batches.csv, row 4) lies after the day on which the "
                    "panel was made, 2026-02-27 (records/as_built.csv, row 2)",
          .also_moves = {"quantities.record_keys", "quantities.batches"}},
         {.label = "delivered before it was made",
          .change = together({made_on("2026-02-27"),
                              recorded(record_of("deliveries", "2026-02-20", {cell_of("delivery", "D-9")}, 3))}),
          .verdict = Verdict::fail,
          .value = std::string("ACCEPTED"),
          .reason =
              "the delivery of 2026-02-20 (records/deliveries.csv, row 3) lies before the day on which the panel was "
              "made, 2026-02-27 (records/as_built.csv, row 2)",
          .also_moves = {"quantities.record_keys"}},
         {.label = "installed before it was delivered",
          .change = recorded(record_of("deliveries", "2026-04-08", {cell_of("delivery", "D-9")}, 3)),
          .verdict = Verdict::fail,
          .value = std::string("ACCEPTED"),
          .reason = "the panel was installed on 2026-04-06, before the delivery of 2026-04-08 (records/deliveries.csv, "
                    "row 3)",
          .also_moves = {"quantities.record_keys"}},
         {.label = "read in use before it was installed",
          .change = recorded(record_of("in_use", "2026-04-01", {cell_of("what", "READING")}, 3)),
          .verdict = Verdict::fail,
          .value = std::string("ACCEPTED"),
          .reason =
              "the record in use of 2026-04-01 (records/in_use.csv, row 3) lies before the panel was installed, on "
              "2026-04-06",
          .also_moves = {"quantities.record_keys"}},
         {.label = "lined before it was installed",
          .change = recorded(record_of("installation", "2026-04-06", {cell_of("lining day", "2026-04-01")}, 3)),
          .verdict = Verdict::fail,
          .value = std::string("ACCEPTED"),
          .reason = "the lining was fixed on 2026-04-01 (records/installation.csv, row 3), before the panel was "
                    "installed, on 2026-04-06",
          .also_moves = {"quantities.record_keys"}},
         {.label = "installed while an inspection stood rejected",
          .change = together({recorded(record_of("inspections", "2026-03-02",
                                                 {cell_of("subject", "frame"), cell_of("result", "REJECTED")}, 2)),
                              recorded(record_of("inspections", "2026-04-09",
                                                 {cell_of("subject", "frame"), cell_of("result", "ACCEPTED")}, 3))}),
          .verdict = Verdict::fail,
          .value = std::string("ACCEPTED"),
          .reason =
              "the panel was installed on 2026-04-06, while the inspection of 2026-03-02 (records/inspections.csv, "
              "row 2) stood rejected: it was accepted on 2026-04-09 (records/inspections.csv, row 3)",
          .also_moves = {"quantities.record_keys"}},
         {.label = "a rejection that was lifted before it was installed",
          .change = together({recorded(record_of("inspections", "2026-03-01", {cell_of("result", "REJECTED")}, 2)),
                              recorded(record_of("inspections", "2026-03-02", {cell_of("result", "ACCEPTED")}, 3))}),
          .verdict = Verdict::pass,
          .value = std::string("ACCEPTED"),
          .also_moves = {"quantities.record_keys"}},
         {.label = "a record after the assessment",
          .change = recorded(record_of("in_use", "2026-06-02", {cell_of("what", "REPAIR")}, 3)),
          .verdict = Verdict::evidence_needed,
          .value = std::string("ACCEPTED"),
          .reason = "the record in use of 2026-06-02 (records/in_use.csv, row 3) lies after project.assessment_date "
                    "2026-06-01",
          .also_moves = {"quantities.record_keys"}},
         {.label = "measured and never inspected",
          .change = together({drop_of_panels("Panel_Inspection.Result"), drop_of_panels("Panel_Inspection.Date"),
                              drop_of_panels("Panel_Install.Result"), drop_of_panels("Panel_Install.Date"),
                              made_on("2026-02-27")}),
          .verdict = Verdict::evidence_needed,
          .value = std::string("not inspected"),
          .reason = "there are records of the panel, and none of its inspection: inspect it and write it down",
          .also_moves = {"quantities.record_keys"}},
     }}};

/// Two deliveries, and a batch of the first of them in the first panel.
Project project_with_batches() {
  Project project = sound_project();
  project.deliveries = {{"D-1", "2026-02-02", "sawmill", record_of("deliveries", "2026-02-02", {}).origin},
                        {"D-2", "2026-02-09", "sawmill", record_of("deliveries", "2026-02-09", {}, 3).origin}};
  add_record(project.panels.front(),
             record_of("batches", "2026-02-05",
                       {cell_of("batch", "B1"), cell_of("material", "softwood"), cell_of("delivery", "D-1")}));
  return project;
}

Change batch_of_delivery(const char* number) {
  return change_first([number](Panel& panel) {
    panel.records.front().values = {cell_of("batch", "B1"), cell_of("delivery", number)};
  });
}

const RegisterCases kBatches{
    {.check = "quantities.batches",
     .sound_project = project_with_batches,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "a batch of a delivery that came before", .verdict = Verdict::pass, .value = 0.0},
         {.label = "a batch built in on the day of its delivery",
          .change = [](Project& project, Settings&) { project.deliveries.front().day = "2026-02-05"; },
          .verdict = Verdict::pass,
          .value = 0.0},
         {.label = "a batch used before it was delivered",
          .change = batch_of_delivery("D-2"),
          .verdict = Verdict::fail,
          .value = 1.0,
          .reason =
              "batch 'B1' (records/batches.csv, row 2) was built in on 2026-02-05, before its delivery 'D-2' arrived "
              "on 2026-02-09 (records/deliveries.csv, row 3); correct the day or the delivery"},
         {.label = "a batch of a delivery that nobody entered",
          .change = batch_of_delivery("D-7"),
          .verdict = Verdict::evidence_needed,
          .value = 1.0,
          .reason =
              "batch 'B1' (records/batches.csv, row 2) is of delivery 'D-7', which the records of deliveries do not "
              "have: enter it there"},
         {.label = "a batch of another material than its delivery",
          .change =
              [](Project& project, Settings&) {
                project.records.push_back(record_of(
                    "deliveries", "2026-02-02", {cell_of("delivery", "D-1"), cell_of("material", "stone wool")}, 4));
              },
          .verdict = Verdict::evidence_needed,
          .value = 1.0,
          .reason = "batch 'B1' (records/batches.csv, row 2) is of 'softwood', but its delivery 'D-1' brought 'stone "
                    "wool' (records/deliveries.csv, row 4): correct one of them"},
         {.label = "a part of another material than its delivery",
          .change =
              [](Project& project, Settings&) {
                project.records.push_back(record_of(
                    "deliveries", "2026-02-02", {cell_of("delivery", "D-1"), cell_of("material", "stone wool")}, 4));
                project.panels.front().records.front().values = {cell_of("batch", "B1"), cell_of("part", "stud 1"),
                                                                 cell_of("delivery", "D-1")};
              },
          .verdict = Verdict::evidence_needed,
          .value = 1.0,
          .reason = "batch 'B1' (records/batches.csv, row 2) is of 'softwood', but its delivery 'D-1' brought 'stone "
                    "wool' (records/deliveries.csv, row 4): correct one of them",
          .also_moves = {"*"}},
         {.label = "a material and a part that the panel does not have",
          .change = change_first([](Panel& panel) {
            panel.records.front().values = {cell_of("batch", "B1"), cell_of("material", "Oak"),
                                            cell_of("part", "Post 77"), cell_of("delivery", "D-1")};
          }),
          .verdict = Verdict::evidence_needed,
          .value = 1.0,
          .reason =
              "batch 'B1' (records/batches.csv, row 2) is of 'Oak', of which the panel has nothing by the export: "
              "correct the name; batch 'B1' (records/batches.csv, row 2) is of part 'Post 77', which the panel "
              "does not have by the export: correct the name"},
         {.label = "a batch built in after the panel was installed",
          .change = change_first([](Panel& panel) { panel.records.front().day = "2026-05-20"; }),
          .verdict = Verdict::fail,
          .value = 1.0,
          .reason = "batch 'B1' (records/batches.csv, row 2) was built in on 2026-05-20, after the panel was installed "
                    "on 2026-04-06 (IfcPropertySingleValue Panel_Install.Date, 0000000000000000000001, line 7); "
                    "correct one of the days",
          .also_moves = {"*"}},
         {.label = "a batch of no stated delivery",
          .change = change_first([](Panel& panel) { panel.records.front().values.pop_back(); }),
          .verdict = Verdict::evidence_needed,
          .value = 1.0,
          .reason = "batch 'B1' (records/batches.csv, row 2) names no delivery: write the number of its delivery note"},
         {.label = "no record of a batch",
          .change = change_first([](Panel& panel) { panel.records.clear(); }),
          .reason = "there is no record of a batch in the panel",
          .also_moves = {"quantities.records", "quantities.record_keys"}},
     }}};

Change stray(int rows) {
  return [rows](Project& project, Settings&) {
    for (int i = 1; i <= rows; ++i) {
      PanelRecord record =
          record_of("inspections", "2026-03-02", {cell_of("result", "ACCEPTED")}, static_cast<std::uint32_t>(i + 1));
      record.what = "ACCEPTED";
      project.stray_records.push_back({"mark 'P" + std::to_string(90 + i) + "'", record});
    }
  };
}

const RegisterCases kRecordKeys{
    {.check = "quantities.record_keys",
     .sound_project = project_with_batches,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "every row names a panel", .verdict = Verdict::pass, .value = 0.0},
         {.label = "a row of a panel that the export does not have",
          .change = stray(1),
          .verdict = Verdict::evidence_needed,
          .value = 1.0,
          .reason =
              "these rows name no panel of the export: records/inspections.csv, row 2 mark 'P91'; correct what they "
              "name, or take them out"},
         {.label = "more of them than a reason can hold",
          .change = stray(7),
          .verdict = Verdict::evidence_needed,
          .value = 7.0,
          .reason =
              "these rows name no panel of the export: records/inspections.csv, row 2 mark 'P91'; "
              "records/inspections.csv, row 3 mark 'P92'; records/inspections.csv, row 4 mark 'P93'; "
              "records/inspections.csv, row 5 mark 'P94'; records/inspections.csv, row 6 mark 'P95' and 2 more, all "
              "in the table; correct what they name, or take them out"},
         {.label = "no records at all",
          .change = change_first([](Panel& panel) { panel.records.clear(); }),
          .reason = "the project keeps no records of its panels",
          .also_moves = {"*"}},
     }}};

}  // namespace
