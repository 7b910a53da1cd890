// Cases of the times and the programme of erection.
#include <string>
#include <utility>
#include <vector>

#include "core/api/testing/check_cases.h"
#include "tests/quantities/programme/lifted_panel.h"
#include "tests/quantities/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::quantities::test;

namespace {

void add_what_lifts_and_holds(Panel& panel) {
  add_fasteners(panel, "LIFTING LOOP", 2);
  add_fasteners(panel, "BRACKET", 8);
}

/// The settings of an ordinary lift and its crane.
Change lift_described() {
  std::vector<Change> changes;
  const Settings lift = lift_settings();
  for (const auto& [key, value] : lift.all()) changes.push_back(set_setting(key, value));
  return together(std::move(changes));
}

const RegisterCases kErectionTime{
    {.check = "quantities.erection_time",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::information, .value = 0.288},
         {.label = "a batch is told beside it",
          .change = set_of_panels("Panel_Identity.Batch", std::string("W14")),
          .verdict = Verdict::information,
          .value = 0.288},
         {.label = "batches counted off",
          .change = set_setting("quantities.panels_per_batch", 1.0),
          .verdict = Verdict::information,
          .value = 0.288},
         {.label = "no output of the crew",
          .change = drop_setting("quantities.crew_area_rate_m2_per_h"),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'quantities.lift_cycle' is missing, the times of a lift; or at least setting "
                    "'quantities.crew_area_rate_m2_per_h', the output of a crew"},
         {.label = "no width",
          .change = change_panels([](Panel& panel) { panel.width_m.value = 0.0; }),
          .verdict = Verdict::not_assessed,
          .reason = "panel width must be greater than zero (export)",
          .also_moves = {"*"}},
     }}};

const RegisterCases kErectionTimeOfProject{
    {.check = "quantities.erection_time",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases =
         {
             {.label = "the sum of both panels", .verdict = Verdict::information, .value = 0.576},
             // 11.52 m² in 2·0.336111 h, six hours of eight: 12.85 m²/h.
             {.label = "a cycle as experienced",
              .change = together({change_panels(add_what_lifts_and_holds), lift_described(),
                                  set_setting("quantities.lift_cycle.turn_deg", 0.0),
                                  set_setting("quantities.crew_area_rate_m2_per_h", 12.0)}),
              .verdict = Verdict::information,
              .value = 0.672222,
              .also_moves = {"*"}},
             {.label = "a cycle that experience contradicts",
              .change = together({change_panels(add_what_lifts_and_holds), lift_described(),
                                  set_setting("quantities.lift_cycle.turn_deg", 0.0)}),
              .verdict = Verdict::not_assessed,
              .reason =
                  "the times of setting 'quantities.lift_cycle' give an output over the working day of 12.9 m²/h, "
                  "more than a quarter away from the 20.0 m²/h of setting 'quantities.crew_area_rate_m2_per_h': "
                  "correct the one that is wrong, or leave the output out where it is of panels of another kind",
              .also_moves = {"*"}},
             {.label = "no output of the crew",
              .change = drop_setting("quantities.crew_area_rate_m2_per_h"),
              .verdict = Verdict::not_assessed,
              .reason = "not assessed for 2 of 2 panels: 'P01', 'P02'; see each panel for what is missing",
              .also_moves = {"quantities.records", "quantities.programme"}},
         },
     .of_project = true}};

const RegisterCases kProgramme{
    {.check = "quantities.programme",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "both panels on one day", .verdict = Verdict::information, .value = 1.0},
         {.label = "a day that just holds one panel",
          .change = set_setting("quantities.crane_hours_per_day", 0.288),
          .verdict = Verdict::information,
          .value = 2.0,
          .also_moves = {"quantities.records"}},
         {.label = "panels that no day holds",
          .change = set_setting("quantities.crew_area_rate_m2_per_h", 0.5),
          .verdict = Verdict::not_assessed,
          .reason =
              "panel 'P01' takes 11.5 h, more than a day of lifting: check the times of a lift and the hours of a day; "
              "panel 'P02' takes 11.5 h, more than a day of lifting: check the times of a lift and the hours of a day",
          .also_moves = {"quantities.records", "quantities.erection_time"}},
         {.label = "no first day",
          .change = drop_setting("quantities.start_date"),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'quantities.start_date' is missing: the first day of erection as YYYY-MM-DD",
          .also_moves = {"quantities.records"}},
         {.label = "a first day that is no date",
          .change = set_setting("quantities.start_date", std::string("2026-02-30")),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'quantities.start_date' is '2026-02-30', which is no date YYYY-MM-DD",
          .also_moves = {"quantities.records"}},
         {.label = "half a crane",
          .change = set_setting("quantities.cranes", 1.5),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'quantities.cranes' must be a whole number from 1 to 100",
          .also_moves = {"quantities.records"}},
         {.label = "a panel that waits for itself",
          .change = change_first(
              [](Panel& panel) { state(panel.properties, "Panel_Identity", "After", std::string("P01")); }),
          .verdict = Verdict::not_assessed,
          .reason = "the order of erection goes in a circle: 'P01' after 'P01'; take one Panel_Identity.After away",
          .also_moves = {"quantities.records", "quantities.deliveries"}},
         {.label = "a panel of unknown bearing counts as not load-bearing, with a note",
          .change = drop_of_panels("Pset_WallCommon.LoadBearing"),
          .verdict = Verdict::information,
          .value = 1.0},
     }}};

/// 0.288 h a panel and a day of as much: both come on the first day and one waits for the second.
const RegisterCases kSiteStorage{
    {.check = "quantities.site_storage",
     .sound_project = sound_project,
     .sound_settings =
         [] {
           Settings result = sound_settings();
           result.set("quantities.site_storage_m2", 10.0);
           result.set("quantities.crane_hours_per_day", 0.288);
           return result;
         },
     .cases = {
         {.label = "one panel waits", .verdict = Verdict::pass, .value = 5.76},
         {.label = "none waits",
          .change = set_setting("quantities.crane_hours_per_day", 6.0),
          .verdict = Verdict::pass,
          .value = 0.0,
          .also_moves = {"quantities.records", "quantities.programme"}},
         {.label = "less room than the panel takes",
          .change = set_setting("quantities.site_storage_m2", 5.0),
          .verdict = Verdict::fail,
          .reason = "more panels wait on site than it can store: bring loads later "
                    "(quantities.transport.lead_working_days), find more room, or use more cranes"},
         {.label = "no programme",
          .change = drop_setting("quantities.start_date"),
          .verdict = Verdict::not_assessed,
          .reason = "what waits on site is not known: see quantities.programme and quantities.deliveries",
          .also_moves = {"*"}},
         {.label = "the settings say nothing of it",
          .change = drop_setting("quantities.site_storage_m2"),
          .reason = "the settings do not say how much the site can store (quantities.site_storage_m2)"},
     }}};

}  // namespace
