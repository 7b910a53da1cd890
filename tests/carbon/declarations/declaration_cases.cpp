// Cases of what files declare beside global warming, on the panels of modules_cases.cpp.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

const std::string kForeignUnit =
    "evidence/EPD-2.csv, the declaration of material 'gypsum board', states AP in 'kg SO2 eq.'; ask the supplier for "
    "it "
    "in mol H+ eq.";

const RegisterCases kCoreIndicators{
    {.check = "carbon.core_indicators",
     .sound_project = declared_project,
     .sound_settings = declared_settings,
     .cases = {
         {.label = "as made, without a file", .verdict = Verdict::information, .value = 0.0},
         {.label = "files of both materials with all indicators",
          .change = declare_by_file(core_lines()),
          .verdict = Verdict::information,
          .value = 9.0},
         {.label = "materials of one name stay apart",
          .change = together({declare_by_file(core_lines()), rename_materials("material")}),
          .verdict = Verdict::information,
          .value = 9.0},
         {.label = "one indicator is lacking",
          .change = declare_by_file(core_lines("WDP")),
          .verdict = Verdict::information,
          .value = 8.0},
         {.label = "a file of one material is no whole sum",
          .change = declare_by_file(core_lines(), true),
          .verdict = Verdict::information,
          .value = 0.0},
         {.label = "an indicator in a foreign unit",
          .change = declare_by_file(core_lines("AP") + "AP,A1-A3,0.5,kg SO2 eq.\n", true),
          .verdict = Verdict::evidence_needed,
          .reason = kForeignUnit},
     }}};

const RegisterCases kCoreIndicatorsOfProject{
    {.check = "carbon.core_indicators",
     .sound_project = two_declared_panels,
     .sound_settings = declared_settings,
     .cases = {{.label = "files of both materials with all indicators but one",
                .change = declare_by_file(core_lines("WDP")),
                .verdict = Verdict::information,
                .value = 8.0},
               {.label = "an indicator in a foreign unit",
                .change = declare_by_file(core_lines("AP") + "AP,A1-A3,0.5,kg SO2 eq.\n", true),
                .verdict = Verdict::evidence_needed,
                .reason = "2 panels have no carbon.core_indicators: P-01, P-02",
                .also_moves = {"carbon.declarations"}}},
     .of_project = true}};

const RegisterCases kDeclarations{
    {.check = "carbon.declarations",
     .sound_project = two_declared_panels,
     .sound_settings = declared_settings,
     .cases = {{.label = "as made", .verdict = Verdict::information, .value = 2.0},
               {.label = "materials of one name are listed each",
                .change = rename_materials("material"),
                .verdict = Verdict::information,
                .value = 2.0},
               {.label = "a file of one material",
                .change = declare_by_file(core_lines() + "GWP-total,A4,9,kg CO2e\n", true),
                .verdict = Verdict::information,
                .value = 2.0},
               {.label = "an indicator in a foreign unit",
                .change = declare_by_file(core_lines("AP") + "AP,A1-A3,0.5,kg SO2 eq.\n", true),
                .verdict = Verdict::evidence_needed,
                .reason = kForeignUnit,
                .also_moves = {"carbon.core_indicators"}},
               {.label = "a declaration that ran out is listed, and named",
                .change = set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.ValidUntil", "2020-01-01"),
                .verdict = Verdict::evidence_needed,
                .reason = "the declaration of material 'softwood' ran out on 2020-01-01 "
                          "(Panel_EnvironmentalDeclaration.ValidUntil), before project.assessment_date 2026-06-01; ask "
                          "the supplier for the one in force",
                .also_moves = {"*"}},
               {.label = "no material",
                .change = change_panels([](Panel& panel) { panel.parts.clear(); }),
                .verdict = Verdict::not_assessed,
                .reason = "no panel holds a material",
                .also_moves = {"*"}}}}};

}  // namespace
