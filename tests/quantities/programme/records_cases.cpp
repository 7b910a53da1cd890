// Cases of records of inspection and installation, and of declared waste against the plans.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/quantities/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::quantities::test;

namespace {

const RegisterCases kRecords{
    {.check = "quantities.records",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "inspected, then installed, both accepted",
          .verdict = Verdict::pass,
          .value = std::string("ACCEPTED")},
         {.label = "inspected and installed on one day",
          .change = set_of_panels("Panel_Inspection.Date", "2026-04-06"),
          .verdict = Verdict::pass,
          .value = std::string("ACCEPTED")},
         {.label = "inspected and not yet installed",
          .change = together({drop_of_panels("Panel_Install.Result"), drop_of_panels("Panel_Install.Date")}),
          .verdict = Verdict::pass,
          .value = std::string("ACCEPTED, not installed")},
         {.label = "accepted although the size as built fails",
          .change = set_of_panels("Panel_AsBuilt.Width", 2.5),
          .verdict = Verdict::evidence_needed,
          .value = std::string("ACCEPTED"),
          .reason = "the panel was accepted (Panel_Inspection.Result), though its size as built fails "
                    "(quantities.as_built_size): correct the record that is wrong, or have the deviation mended and "
                    "measured again",
          .also_moves = {"quantities.as_built_size"}},
         {.label = "accepted when it was installed although the size as built fails",
          .change = together({set_of_panels("Panel_AsBuilt.Width", 2.5), drop_of_panels("Panel_Inspection.Result")}),
          .verdict = Verdict::evidence_needed,
          .value = std::string("not stated"),
          .reason = "the inspection has no result: state Panel_Inspection.Result; the panel was accepted "
                    "(Panel_Install.Result), though its size as built fails (quantities.as_built_size): correct the "
                    "record that is wrong, or have the deviation mended and measured again",
          .also_moves = {"quantities.as_built_size"}},
         {.label = "rejected at the inspection",
          .change = set_of_panels("Panel_Inspection.Result", "REJECTED"),
          .verdict = Verdict::fail,
          .value = std::string("REJECTED"),
          .reason = "the panel was rejected at its inspection (Panel_Inspection.Result)"},
         {.label = "rejected when it was installed",
          .change = set_of_panels("Panel_Install.Result", "REJECTED"),
          .verdict = Verdict::fail,
          .value = std::string("REJECTED"),
          .reason = "the panel was rejected at its installation (Panel_Install.Result)"},
         {.label = "an open inspection",
          .change = set_of_panels("Panel_Inspection.Result", "OPEN"),
          .verdict = Verdict::evidence_needed,
          .value = std::string("OPEN"),
          .reason = "the result of the inspection is 'OPEN' (Panel_Inspection.Result), not ACCEPTED"},
         {.label = "an installation without result",
          .change = drop_of_panels("Panel_Install.Result"),
          .verdict = Verdict::evidence_needed,
          .value = std::string("not stated"),
          .reason = "the installation has no result: state Panel_Install.Result"},
         {.label = "an inspection without day",
          .change = drop_of_panels("Panel_Inspection.Date"),
          .verdict = Verdict::evidence_needed,
          .value = std::string("ACCEPTED"),
          .reason = "the inspection has no day: state Panel_Inspection.Date"},
         {.label = "installed before it was inspected",
          .change = set_of_panels("Panel_Inspection.Date", "2026-04-08"),
          .verdict = Verdict::fail,
          .value = std::string("ACCEPTED"),
          .reason = "the panel was installed on 2026-04-06 (Panel_Install.Date), before it was inspected on 2026-04-08 "
                    "(Panel_Inspection.Date)"},
         {.label = "installed and never inspected",
          .change = together({drop_of_panels("Panel_Inspection.Result"), drop_of_panels("Panel_Inspection.Date")}),
          .verdict = Verdict::evidence_needed,
          .value = std::string("ACCEPTED"),
          .reason = "the panel is installed and has no record of inspection: state Panel_Inspection.Result and Date"},
         {.label = "installed after the assessment",
          .change = set_of_panels("Panel_Install.Date", "2026-06-02"),
          .verdict = Verdict::evidence_needed,
          .value = std::string("ACCEPTED"),
          .reason = "the day of the installation, 2026-06-02 (Panel_Install.Date), lies after project.assessment_date "
                    "2026-06-01"},
         {.label = "installed on a Sunday",
          .change = set_of_panels("Panel_Install.Date", "2026-04-12"),
          .verdict = Verdict::evidence_needed,
          .value = std::string("ACCEPTED"),
          .reason = "the panel was installed on 2026-04-12 (Panel_Install.Date), a day without work by settings "
                    "'quantities.working_days' and 'quantities.holidays'"},
         {.label = "installed on a holiday",
          .change = set_setting("quantities.holidays.0", std::string("2026-04-06")),
          .verdict = Verdict::evidence_needed,
          .value = std::string("ACCEPTED"),
          .reason = "the panel was installed on 2026-04-06 (Panel_Install.Date), a day without work by settings "
                    "'quantities.working_days' and 'quantities.holidays'"},
         {.label = "no record",
          .change = together({drop_of_panels("Panel_Inspection.Result"), drop_of_panels("Panel_Inspection.Date"),
                              drop_of_panels("Panel_Install.Result"), drop_of_panels("Panel_Install.Date")}),
          .reason = "the export tells of no inspection or installation"},
     }}};

const std::string kOtherDay =
    "installed on another day (Panel_Install.Date) than quantities.programme has, or due and without a day: ";

const RegisterCases kRecordsOfProject{
    {.check = "quantities.records",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases =
         {
             {.label = "installed on the days of the programme", .verdict = Verdict::pass, .value = 0.0},
             {.label = "one panel a day late",
              .change = change_first([](Panel& panel) {
                testing::replace(panel.properties, "Panel_Install", "Date", property_of("2026-04-08"));
              }),
              .verdict = Verdict::evidence_needed,
              .value = 1.0,
              .reason = kOtherDay + "'P01' on 2026-04-08 instead of 2026-04-06"},
             {.label = "one panel before its day",
              .change = change_first([](Panel& panel) {
                testing::replace(panel.properties, "Panel_Install", "Date", property_of("2026-04-03"));
              }),
              .verdict = Verdict::evidence_needed,
              .value = 1.0,
              .reason = kOtherDay + "'P01' on 2026-04-03 instead of 2026-04-06"},
             {.label = "no programme",
              .change = drop_setting("quantities.start_date"),
              .verdict = Verdict::not_assessed,
              .reason = "there is no programme to compare with: quantities.programme is not assessed: setting "
                        "'quantities.start_date' is missing: the first day of erection as YYYY-MM-DD",
              .also_moves = {"*"}},
             {.label = "one panel that should stand by now and has no day",
              .change = change_first(
                  [](Panel& panel) { testing::replace(panel.properties, "Panel_Install", "Date", property_of("")); }),
              .verdict = Verdict::evidence_needed,
              .value = 1.0,
              .reason = kOtherDay + "'P01' without a day instead of 2026-04-06"},
             {.label = "no panel has a day, though all should stand by now",
              .change = drop_of_panels("Panel_Install.Date"),
              .verdict = Verdict::evidence_needed,
              .value = 2.0,
              .reason = kOtherDay + "'P01' without a day instead of 2026-04-06; 'P02' without a day instead of "
                                    "2026-04-06"},
             {.label = "no panel installed, on the first day of the programme",
              .change = together({drop_of_panels("Panel_Install.Date"),
                                  set_setting("project.assessment_date", std::string("2026-04-06"))}),
              .reason = "no panel has a day of installation, Panel_Install.Date"},
         },
     .of_project = true}};

const RegisterCases kWaste{
    {.check = "quantities.waste",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "more declared than the plans lose", .verdict = Verdict::pass, .value = 0.0},
         {.label = "nothing declared of what the plan loses",
          .change = set_of_material(0, "Panel_EnvironmentalDeclaration.WasteRateA5", 0.0),
          .verdict = Verdict::fail,
          .reason = "of 'softwood' the plan loses 2.7 % and Panel_EnvironmentalDeclaration.WasteRateA5 declares 0.0 %; "
                    "raise the declared rate, for carbon.a5 counts too little, or improve the plan"},
         {.label = "nothing declared of a loss within the tolerance",
          .change = together({set_setting("quantities.stock_lengths_m.0", 2.32),
                              set_setting("quantities.stock_lengths_m.1", 2.4),
                              set_of_material(0, "Panel_EnvironmentalDeclaration.WasteRateA5", 0.0)}),
          .verdict = Verdict::evidence_needed,
          .reason =
              "the plans lose some and Panel_EnvironmentalDeclaration.WasteRateA5 declares 0 of 'softwood'; state "
              "what is lost",
          .also_moves = {"quantities.stock_yield"}},
         {.label = "nothing declared of boards of which nothing is lost",
          .change = set_of_material(1, "Panel_EnvironmentalDeclaration.WasteRateA5", 0.0),
          .verdict = Verdict::pass,
          .value = 0.0},
         {.label = "nothing declared",
          .change = drop_of_material(0, "Panel_EnvironmentalDeclaration.WasteRateA5"),
          .verdict = Verdict::evidence_needed,
          .reason = "no usable Panel_EnvironmentalDeclaration.WasteRateA5, at least 0 and below 1, of 'softwood'"},
         {.label = "no plan of sheets",
          .change = drop_settings("quantities.sheet_sizes_m."),
          .verdict = Verdict::not_assessed,
          .reason = "quantities.sheet_yield has no plan: setting 'quantities.sheet_sizes_m' has no sheet of 'particle "
                    "board': an entry with its material, width and length",
          .also_moves = {"quantities.sheet_yield"}},
     }}};

}  // namespace
