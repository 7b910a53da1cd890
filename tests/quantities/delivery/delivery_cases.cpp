// Cases of the vehicle loads.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/quantities/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::quantities::test;

namespace {

const RegisterCases kDeliveries{
    {.check = "quantities.deliveries",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "both panels on one vehicle", .verdict = Verdict::information, .value = 1.0},
         {.label = "a payload for one panel",
          .change = set_setting("structural.transport.payload_kg", 1590.0),
          .verdict = Verdict::information,
          .value = 2.0},
         {.label = "a payload a hair below a panel and the racks",
          .change = set_setting("structural.transport.payload_kg", 1589.9),
          .verdict = Verdict::not_assessed,
          .reason = "panel 'P01' weighs 90 kg and the vehicle carries 90 kg beside its racks: choose another vehicle; "
                    "panel 'P02' weighs 90 kg and the vehicle carries 90 kg beside its racks: choose another vehicle"},
         {.label = "a panel as long as the bed",
          .change = change_first([](Panel& panel) { panel.width_m.value = 13.6; }),
          .verdict = Verdict::information,
          .value = 1.0,
          .also_moves = {"*"}},
         {.label = "a panel longer than the bed",
          .change = change_first([](Panel& panel) { panel.width_m.value = 13.7; }),
          .verdict = Verdict::not_assessed,
          .reason =
              "panel 'P01' is 13.700 m long and the load bed 13.600 m: choose a longer vehicle or divide the panel",
          .also_moves = {"*"}},
         {.label = "no width of the bed",
          .change = drop_setting("quantities.transport.bed_width_m"),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'quantities.transport.bed_width_m' is missing or not above 0"},
         {.label = "no order of erection",
          .change = drop_of_panels("Panel_Identity.ErectionOrder"),
          .verdict = Verdict::not_assessed,
          .reason = "'P01', 'P02' without place in the order of erection: give Panel_Identity.ErectionOrder, or the "
                    "mark of the panel before it as Panel_Identity.After",
          .also_moves = {"quantities.records", "quantities.programme"}},
         {.label = "one place for two panels",
          .change = set_of_panels("Panel_Identity.ErectionOrder", 1.0),
          .verdict = Verdict::not_assessed,
          .reason =
              "'P01' and 'P02' (number 1) share a place: give each panel a Panel_Identity.ErectionOrder of its own",
          .also_moves = {"quantities.records", "quantities.programme"}},
         {.label = "places between whole numbers",
          .change = set_of_panels("Panel_Identity.ErectionOrder", 1.5),
          .verdict = Verdict::not_assessed,
          .reason = "'P01', 'P02' whose Panel_Identity.ErectionOrder is not a whole number from 1",
          .also_moves = {"quantities.records", "quantities.programme"}},
     }}};

}  // namespace
