// Cases of the modules of EN 15978. The panel holds 0.08505 m³ (35.721 kg) of softwood and 64.8 kg of gypsum board on
// 6.48 m²; the second of two has a stud of 0.01701 m³ less. Values are worked out by hand from the figures in
// declared_panel.h.
#include <string>
#include <vector>

#include "core/api/testing/check_cases.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

const std::vector<std::string> kRestOnProduct{"carbon.a5", "carbon.b4", "carbon.total_per_area", "carbon.whole_life"};
const std::vector<std::string> kRestOnTransport = kRestOnProduct;
const std::vector<std::string> kRestOnConstruction{"carbon.b4", "carbon.total_per_area", "carbon.whole_life"};
const std::string kBoth = "P-01, P-02";

Change lose_material_of_first_stud() {
  return change_panels([](Panel& panel) { panel.parts.front().material.reset(); });
}

const RegisterCases kProductStage{
    {.check = "carbon.a1_a3",
     .sound_project = declared_project,
     .sound_settings = declared_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::information, .value = 21.38805},
         {.label = "the same board declared for each m² of its thickness",
          .change =
              together({set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.DeclaredUnit", "m2"),
                        set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.DeclaredThickness", 0.0125),
                        set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpFossilA1A3", 2.5)}),
          .verdict = Verdict::information,
          .value = 21.38805,
          .also_moves = {"carbon.a5", "carbon.b4", "carbon.c1_c4", "carbon.d", "carbon.total_per_area",
                         "carbon.whole_life", "carbon.core_indicators"}},
         {.label = "materials of one name stay apart",
          .change = rename_materials("material"),
          .verdict = Verdict::information,
          .value = 21.38805},
         {.label = "a declaration on its last day",
          .change = set_of_materials("Panel_EnvironmentalDeclaration.ValidUntil", "2026-06-01"),
          .verdict = Verdict::information,
          .value = 21.38805},
         {.label = "a declaration on the day after its last",
          .change = set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.ValidUntil", "2026-05-31"),
          .verdict = Verdict::evidence_needed,
          .reason = "the declaration of material 'gypsum board' ran out on 2026-05-31 "
                    "(Panel_EnvironmentalDeclaration.ValidUntil), before project.assessment_date 2026-06-01; ask the "
                    "supplier for the one in force",
          .also_moves = {"*"}},
         {.label = "a document that is not there",
          .change = [](Project& project, Settings&) { project.evidence.front().status = EvidenceStatus::missing; },
          .verdict = Verdict::evidence_needed,
          .reason =
              "declaration 'EPD-1' of material 'gypsum board' cannot be read from the project folder; declaration "
              "'EPD-1' of material 'softwood' cannot be read from the project folder",
          .also_moves = {"*"}},
         {.label = "a file that is faulty",
          .change = declare_by_file("GWP-fossil,A1-A3,a quarter,kg CO2e\n", true),
          .verdict = Verdict::evidence_needed,
          .reason =
              "declaration 'EPD-2' of material 'gypsum board' is faulty: evidence/EPD-2.csv:2: 'a quarter' is not "
              "a number; ask the supplier for it again",
          .also_moves = {"*"}},
         {.label = "a file that contradicts the export",
          .change = declare_by_file("GWP-fossil,A1-A3,0.5,kg CO2e\n", true),
          .verdict = Verdict::evidence_needed,
          .reason = "material 'gypsum board': GwpFossilA1A3 in the export is not that of the declaration "
                    "(evidence/EPD-2.csv, row 'line 2' (environmental declaration EPD-2)); correct the export",
          .also_moves = {"*"}},
         {.label = "a part without material",
          .change = lose_material_of_first_stud(),
          .verdict = Verdict::not_assessed,
          .reason = "'Stud 1' has no material",
          .also_moves = {"*"}},
         {.label = "no day of assessment",
          .change = drop_setting("project.assessment_date"),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'project.assessment_date' is missing or not a date YYYY-MM-DD",
          .also_moves = {"*"}},
     }}};

const RegisterCases kProductStageOfProject{
    {.check = "carbon.a1_a3",
     .sound_project = two_declared_panels,
     .sound_settings = declared_settings,
     .cases = {{.label = "the sum of both panels", .verdict = Verdict::information, .value = 41.73849},
               {.label = "one panel with a part without material",
                .change = [](Project& project, Settings&) { project.panels[1].parts.front().material.reset(); },
                .verdict = Verdict::not_assessed,
                .reason = "1 panel has no carbon.a1_a3: P-02",
                .also_moves = {"*"}},
               {.label = "a declaration that ran out",
                .change = set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.ValidUntil", "2020-01-01"),
                .verdict = Verdict::evidence_needed,
                .reason = "2 panels have no carbon.a1_a3: " + kBoth,
                .also_moves = {"*"}}},
     .of_project = true}};

const RegisterCases kTransport{
    {.check = "carbon.a4",
     .sound_project = declared_project,
     .sound_settings = declared_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::information, .value = 2.07684},
         {.label = "materials of one name stay apart",
          .change = rename_materials("material"),
          .verdict = Verdict::information,
          .value = 2.07684},
         {.label = "a vehicle that gives off nothing",
          .change = set_setting("carbon.road_transport_gwp_kgco2e_per_tonne_km", 0.0),
          .verdict = Verdict::information,
          .value = 0.0,
          .also_moves = kRestOnTransport},
         {.label = "a factor below nothing",
          .change = set_setting("carbon.road_transport_gwp_kgco2e_per_tonne_km", -0.1),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'carbon.road_transport_gwp_kgco2e_per_tonne_km' is negative; give at least 0",
          .also_moves = kRestOnTransport},
         {.label = "no distance",
          .change = drop_of_material(kBoardMaterial, "Panel_Supply.TransportDistance"),
          .verdict = Verdict::not_assessed,
          .reason = "material 'gypsum board' has no Panel_Supply.TransportDistance",
          .also_moves = kRestOnTransport},
         {.label = "no density",
          .change = drop_of_material(kWoodMaterial, "Pset_MaterialCommon.MassDensity"),
          .verdict = Verdict::not_assessed,
          .reason = "material 'softwood' has no positive Pset_MaterialCommon.MassDensity",
          .also_moves = {"carbon.a5", "carbon.b4", "carbon.total_per_area", "carbon.whole_life",
                         "carbon.biogenic_storage"}},
     }}};

const RegisterCases kTransportOfProject{
    {.check = "carbon.a4",
     .sound_project = two_declared_panels,
     .sound_settings = declared_settings,
     .cases = {{.label = "the sum of both panels", .verdict = Verdict::information, .value = 3.867912},
               {.label = "no distance",
                .change = drop_of_material(kBoardMaterial, "Panel_Supply.TransportDistance"),
                .verdict = Verdict::not_assessed,
                .reason = "2 panels have no carbon.a4: " + kBoth,
                .also_moves = kRestOnTransport}},
     .of_project = true}};

const RegisterCases kConstruction{
    {.check = "carbon.a5",
     .sound_project = declared_project,
     .sound_settings = declared_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::information, .value = 15.40026},
         {.label = "materials of one name stay apart",
          .change = rename_materials("material"),
          .verdict = Verdict::information,
          .value = 15.40026},
         {.label = "nothing is lost, so assembly on site alone",
          .change = set_of_materials("Panel_EnvironmentalDeclaration.WasteRateA5", 0.0),
          .verdict = Verdict::information,
          .value = 9.72,
          .also_moves = kRestOnConstruction},
         {.label = "all is lost",
          .change = set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.WasteRateA5", 1.0),
          .verdict = Verdict::not_assessed,
          .reason = "material 'softwood': Panel_EnvironmentalDeclaration.WasteRateA5 must be at least 0 and below 1",
          .also_moves = kRestOnConstruction},
         {.label = "a share that is not declared",
          .change = drop_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.WasteRateA5"),
          .verdict = Verdict::evidence_needed,
          .reason = "material 'softwood' has no Panel_EnvironmentalDeclaration.WasteRateA5",
          .also_moves = kRestOnConstruction},
         {.label = "no factor of assembly",
          .change = drop_setting("carbon.site_assembly_gwp_kgco2e_per_m2"),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'carbon.site_assembly_gwp_kgco2e_per_m2' is missing",
          .also_moves = kRestOnConstruction},
         {.label = "what it rests on is not known",
          .change = drop_of_material(kBoardMaterial, "Panel_Supply.TransportDistance"),
          .verdict = Verdict::not_assessed,
          .reason = "carbon.a4 has no value: material 'gypsum board' has no Panel_Supply.TransportDistance",
          .also_moves = {"carbon.a4", "carbon.b4", "carbon.total_per_area", "carbon.whole_life"}},
     }}};

const RegisterCases kConstructionOfProject{
    {.check = "carbon.a5",
     .sound_project = two_declared_panels,
     .sound_settings = declared_settings,
     .cases = {{.label = "the sum of both panels", .verdict = Verdict::information, .value = 30.636468},
               {.label = "a share that is not declared",
                .change = drop_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.WasteRateA5"),
                .verdict = Verdict::evidence_needed,
                .reason = "2 panels have no carbon.a5: " + kBoth,
                .also_moves = kRestOnConstruction}},
     .of_project = true}};

const RegisterCases kReplacement{
    {.check = "carbon.b4",
     .sound_project = declared_project,
     .sound_settings = declared_settings,
     .cases = {
         {.label = "as made: all last as long as the study period", .verdict = Verdict::information, .value = 0.0},
         {.label = "a board that lasts half of it is replaced once",
          .change = set_of_material(kBoardMaterial, "Panel_Supply.ServiceLife", 30.0),
          .verdict = Verdict::information,
          .value = 24.948,
          .also_moves = {"carbon.whole_life"}},
         {.label = "a part of a period of service counts whole",
          .change = set_of_material(kBoardMaterial, "Panel_Supply.ServiceLife", 29.9),
          .verdict = Verdict::information,
          .value = 49.896,
          .also_moves = {"carbon.whole_life"}},
         {.label = "materials of one name stay apart",
          .change = together(
              {set_of_material(kBoardMaterial, "Panel_Supply.ServiceLife", 25.0), rename_materials("material")}),
          .verdict = Verdict::information,
          .value = 49.896,
          .also_moves = {"carbon.whole_life"}},
         {.label = "no service life",
          .change = drop_of_material(kBoardMaterial, "Panel_Supply.ServiceLife"),
          .verdict = Verdict::not_assessed,
          .reason = "material 'gypsum board' has no Panel_Supply.ServiceLife, and its declaration no reference service "
                    "life",
          .also_moves = {"carbon.whole_life"}},
         {.label = "no study period",
          .change = drop_setting("carbon.study_period_years"),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'carbon.study_period_years' is missing",
          .also_moves = {"carbon.whole_life"}},
     }}};

const RegisterCases kReplacementOfProject{
    {.check = "carbon.b4",
     .sound_project = two_declared_panels,
     .sound_settings = declared_settings,
     .cases = {{.label = "the sum of both panels",
                .change = set_of_material(kBoardMaterial, "Panel_Supply.ServiceLife", 25.0),
                .verdict = Verdict::information,
                .value = 99.792,
                .also_moves = {"carbon.whole_life"}},
               {.label = "no study period",
                .change = drop_setting("carbon.study_period_years"),
                .verdict = Verdict::not_assessed,
                .reason = "2 panels have no carbon.b4: " + kBoth,
                .also_moves = {"carbon.whole_life"}}},
     .of_project = true}};

const std::string kNotGivenBack =
    "the declaration of material 'softwood' does not give back in C3 and C4 the biogenic carbon that A1–A3 takes up "
    "(EN 15804:2012+A2:2019, 6.3.5.5)";

const RegisterCases kEndOfLife{
    {.check = "carbon.c1_c4",
     .sound_project = declared_project,
     .sound_settings = declared_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::information, .value = 63.582975},
         {.label = "materials of one name stay apart",
          .change = rename_materials("material"),
          .verdict = Verdict::information,
          .value = 63.582975},
         {.label = "95 % of the biogenic carbon is given back",
          .change = set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpTotalC3", 665.0),
          .verdict = Verdict::information,
          .value = 60.180975,
          .also_moves = kRestOnProduct},
         {.label = "less than 95 % is given back",
          .change = set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpTotalC3", 664.9),
          .verdict = Verdict::evidence_needed,
          .reason = kNotGivenBack,
          .also_moves = kRestOnProduct},
         {.label = "a module that is not declared",
          .change = drop_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpTotalC2"),
          .verdict = Verdict::evidence_needed,
          .reason = "material 'gypsum board' has no Panel_EnvironmentalDeclaration.GwpTotalC2",
          .also_moves = kRestOnProduct},
     }}};

const RegisterCases kEndOfLifeOfProject{
    {.check = "carbon.c1_c4",
     .sound_project = two_declared_panels,
     .sound_settings = declared_settings,
     .cases = {{.label = "the sum of both panels", .verdict = Verdict::information, .value = 115.097355},
               {.label = "biogenic carbon that is not given back",
                .change = set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpTotalC3", 10.0),
                .verdict = Verdict::evidence_needed,
                .reason = "2 panels have no carbon.c1_c4: " + kBoth,
                .also_moves = kRestOnProduct}},
     .of_project = true}};

const RegisterCases kBeyondBoundary{
    {.check = "carbon.d",
     .sound_project = declared_project,
     .sound_settings = declared_settings,
     .cases = {{.label = "as made", .verdict = Verdict::information, .value = -10.206},
               {.label = "materials of one name stay apart",
                .change = rename_materials("material"),
                .verdict = Verdict::information,
                .value = -10.206},
               {.label = "not declared, which moves no total",
                .change = drop_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpTotalD"),
                .verdict = Verdict::evidence_needed,
                .reason = "material 'gypsum board' has no Panel_EnvironmentalDeclaration.GwpTotalD"}}}};

const RegisterCases kBeyondBoundaryOfProject{
    {.check = "carbon.d",
     .sound_project = two_declared_panels,
     .sound_settings = declared_settings,
     .cases = {{.label = "the sum of both panels", .verdict = Verdict::information, .value = -18.3708},
               {.label = "not declared",
                .change = drop_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpTotalD"),
                .verdict = Verdict::evidence_needed,
                .reason = "2 panels have no carbon.d: " + kBoth}},
     .of_project = true}};

}  // namespace
