// Cases of what targets judge, on the panels of modules_cases.cpp: A1–A5 is 38.86515 kg, A–C 42.913125 kg, and of the
// second panel 37.37772 kg and 41.2641 kg, on 6.48 m² each.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr double kUpfront = 38.86515 / 6.48;
constexpr double kWhole = 42.913125 / 6.48;
constexpr double kUpfrontOfBoth = (38.86515 + 37.37772) / 12.96;
constexpr double kWholeOfBoth = (42.913125 + 41.2641) / 12.96;

/// A target that ends before it begins.
Change misdate(int row) {
  const std::string key = "carbon.targets." + std::to_string(row) + ".";
  return together({set_setting(key + "valid_from", std::string("2027-01-01")),
                   set_setting(key + "valid_until", std::string("2026-01-01"))});
}

const std::string kNoTarget =
    "no target of the project is in force for these modules: give one in 'carbon.targets' or 'carbon.targets_file'";
const std::string kMisdated0 =
    "target 'Target 0' ends on 2026-01-01, before it begins on 2027-01-01; correct valid_from and valid_until";
const std::string kMisdated1 =
    "target 'Target 1' ends on 2026-01-01, before it begins on 2027-01-01; correct valid_from and valid_until";

Change leave_no_wall() {
  return change_panels([](Panel& panel) { add_window(panel, 0.0, 2.4, 0.0, 2.7, 1.2); });
}

const RegisterCases kTotalPerArea{
    {.check = "carbon.total_per_area",
     .sound_project = declared_project,
     .sound_settings = declared_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::pass, .value = kUpfront},
         {.label = "materials of one name stay apart",
          .change = together({rename_materials("material"), set_target(0, "A1-A5", "every panel", 119.0)}),
          .verdict = Verdict::pass,
          .value = kUpfront},
         {.label = "just below the target",
          .change = set_target(0, "A1-A5", "every panel", 5.998),
          .verdict = Verdict::pass,
          .value = kUpfront},
         {.label = "just above the target",
          .change = set_target(0, "A1-A5", "every panel", 5.997),
          .verdict = Verdict::fail,
          .value = kUpfront,
          .reason = "6.00 kg CO2e/m² of A1–A5 less biogenic is above the target 'Target 0' of 6.00"},
         {.label = "a target for A1–A3 decides too",
          .change = set_target(1, "A1-A3", "every panel", 3.3),
          .verdict = Verdict::fail,
          .value = kUpfront,
          .reason = "3.30 kg CO2e/m² of A1–A3 less biogenic is above the target 'Target 1' of 3.30",
          .also_moves = {"carbon.whole_life"}},
         {.label = "no target",
          .change = drop_settings("carbon.targets."),
          .verdict = Verdict::not_assessed,
          .value = kUpfront,
          .reason = kNoTarget,
          .also_moves = {"carbon.whole_life"}},
         {.label = "a target that ran out is not judged",
          .change = set_setting("carbon.targets.0.valid_until", std::string("2025-12-31")),
          .verdict = Verdict::not_assessed,
          .value = kUpfront,
          .reason = kNoTarget},
         {.label = "a target of the project alone says nothing of a panel",
          .change = set_target(0, "A1-A5", "project", 120.0),
          .verdict = Verdict::information,
          .value = kUpfront},
         {.label = "a target that ends before it begins",
          .change = misdate(0),
          .verdict = Verdict::not_assessed,
          .reason = kMisdated0},
         {.label = "an exceeded target is not hidden behind one that ends before it begins",
          .change = together({misdate(0), set_target(1, "A1-A5", "every panel", 1.0)}),
          .verdict = Verdict::fail,
          .value = kUpfront,
          .reason = "6.00 kg CO2e/m² of A1–A5 less biogenic is above the target 'Target 1' of 1.00; " + kMisdated0,
          .also_moves = {"carbon.whole_life"}},
         {.label = "one that ends before it begins is not hidden behind one that is met",
          .change = together({set_target(1, "A1-A5", "every panel", 100.0), misdate(1)}),
          .verdict = Verdict::not_assessed,
          .reason = kMisdated1,
          .also_moves = {"carbon.whole_life"}},
         {.label = "a target without a source",
          .change = drop_setting("carbon.targets.0.source"),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'carbon.targets.0' needs a name, modules (A1-A3, A1-A5 or A-C), applies_to, a limit above "
                    "0, dates YYYY-MM-DD where it has any, and a source",
          .also_moves = {"carbon.whole_life"}},
         {.label = "no wall between the openings",
          .change = leave_no_wall(),
          .verdict = Verdict::not_assessed,
          .reason = "openings leave no net wall area; check their sizes in the export",
          .also_moves = {"carbon.whole_life", "carbon.core_indicators"}},
         {.label = "what it rests on needs evidence",
          .change = drop_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.WasteRateA5"),
          .verdict = Verdict::evidence_needed,
          .reason = "carbon.a5 has no value: material 'softwood' has no Panel_EnvironmentalDeclaration.WasteRateA5",
          .also_moves = {"carbon.a5", "carbon.b4", "carbon.d", "carbon.whole_life"}},
     }}};

const RegisterCases kTotalPerAreaOfProject{
    {.check = "carbon.total_per_area",
     .sound_project = two_declared_panels,
     .sound_settings = declared_settings,
     .cases =
         {
             {.label = "both panels", .verdict = Verdict::pass, .value = kUpfrontOfBoth},
             {.label = "above the target",
              .change = set_target(0, "A1-A5", "project", 5.8),
              .verdict = Verdict::fail,
              .value = kUpfrontOfBoth,
              .reason = "5.88 kg CO2e/m² of A1–A5 less biogenic of all panels is above the target 'Target 0' of 5.80"},
             {.label = "a target of a type that no panel has",
              .change = set_target(0, "A1-A5", "light", 100.0),
              .verdict = Verdict::not_assessed,
              .reason = "target 'Target 0' applies to 'light', which is no panel type; correct applies_to"},
             {.label = "a target of the project that ends before it begins",
              .change = together({set_target(0, "A1-A5", "project", 100.0), misdate(0)}),
              .verdict = Verdict::not_assessed,
              .reason = kMisdated0},
         },
     .of_project = true}};

const RegisterCases kWholeLife{
    {.check = "carbon.whole_life",
     .sound_project = declared_project,
     .sound_settings = declared_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::pass, .value = kWhole},
         {.label = "without a target of the whole life",
          .change = drop_settings("carbon.targets.1."),
          .verdict = Verdict::not_assessed,
          .value = kWhole,
          .reason = kNoTarget},
         {.label = "materials of one name stay apart",
          .change = together({rename_materials("material"), set_target(1, "A-C", "every panel", 7.0)}),
          .verdict = Verdict::pass,
          .value = kWhole},
         {.label = "just below the target",
          .change = set_target(1, "A-C", "every panel", 6.623),
          .verdict = Verdict::pass,
          .value = kWhole},
         {.label = "just above the target",
          .change = set_target(1, "A-C", "every panel", 6.622),
          .verdict = Verdict::fail,
          .value = kWhole,
          .reason = "6.62 kg CO2e/m² of A–C, GWP-total is above the target 'Target 1' of 6.62"},
         {.label = "a target that ends before it begins",
          .change = together({set_target(1, "A-C", "every panel", 7.0), misdate(1)}),
          .verdict = Verdict::not_assessed,
          .reason = kMisdated1},
         {.label = "a module that is not known",
          .change = drop_of_material(kBoardMaterial, "Panel_Supply.ServiceLife"),
          .verdict = Verdict::not_assessed,
          .reason = "carbon.b4 has no value: material 'gypsum board' has no Panel_Supply.ServiceLife, and its "
                    "declaration no reference service life",
          .also_moves = {"carbon.b4", "carbon.d"}},
         {.label = "an uncertainty below nothing",
          .change = set_setting("carbon.uncertainty_generic", -0.1),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'carbon.uncertainty_generic' is negative",
          .also_moves = {"carbon.total_per_area"}},
     }}};

const RegisterCases kWholeLifeOfProject{
    {.check = "carbon.whole_life",
     .sound_project = two_declared_panels,
     .sound_settings = declared_settings,
     .cases =
         {
             {.label = "both panels", .verdict = Verdict::pass, .value = kWholeOfBoth},
             {.label = "materials of one name stay apart",
              .change = together({rename_materials("material"), set_target(1, "A-C", "project", 6.5)}),
              .verdict = Verdict::pass,
              .value = kWholeOfBoth},
             {.label = "above the target",
              .change = set_target(1, "A-C", "project", 6.4),
              .verdict = Verdict::fail,
              .value = kWholeOfBoth,
              .reason = "6.50 kg CO2e/m² of A–C, GWP-total of all panels is above the target 'Target 1' of 6.40"},
             {.label = "a module of both that is not known",
              .change = drop_of_material(kBoardMaterial, "Panel_Supply.ServiceLife"),
              .verdict = Verdict::not_assessed,
              .reason = "2 panels have no carbon.whole_life: P-01, P-02",
              .also_moves = {"carbon.b4", "carbon.d"}},
         },
     .of_project = true}};

}  // namespace
