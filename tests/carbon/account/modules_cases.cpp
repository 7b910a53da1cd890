// Cases of the modules of EN 15978. The panel holds 0.08505 m³ (35.721 kg) of softwood and 64.8 kg of gypsum board on
// 6.48 m²; the second of two has a stud of 0.01701 m³ less. Values are worked out by hand from the figures in
// declared_panel.h.
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "core/api/testing/check_cases.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

const std::vector<std::string> kRestOnProduct{"carbon.a5", "carbon.b4", "carbon.total_per_area", "carbon.whole_life"};
const std::vector<std::string> kRestOnTransport = kRestOnProduct;
const std::vector<std::string> kRestOnConstruction{"carbon.b4", "carbon.total_per_area", "carbon.whole_life"};
const std::vector<std::string> kRestOnWaste{"carbon.b4", "carbon.d", "carbon.total_per_area", "carbon.whole_life"};
const std::string kBoth = "P-01, P-02";

Change lose_material_of_first_stud() {
  return change_panels([](Panel& panel) { panel.parts.front().material.reset(); });
}

Change set_category(std::size_t material, std::string category) {
  return [material, category = std::move(category)](Project& project, Settings&) {
    project.materials[material].category = category;
  };
}

constexpr const char* kStatedImpact = "Pset_EnvironmentalImpactValues.ClimateChange";
constexpr const char* kStatedPerUnit = "Pset_EnvironmentalImpactIndicators.ClimateChangePerUnit";
constexpr const char* kStatedUnit = "Pset_EnvironmentalImpactIndicators.Unit";
constexpr const char* kStatedPhase = "Pset_EnvironmentalImpactIndicators.LifeCyclePhase";

/// GWP-total of A1–A3, which the second panel has less of.
void state_total(Panel& panel) {
  put(panel.properties, "Pset_EnvironmentalImpactValues", "ClimateChange", panel.mark == "P-01" ? -38.1 : -27.3);
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
         {.label = "the export states nearly the same of the panel",
          .change = set_of_panels(kStatedImpact, 22.0),
          .verdict = Verdict::information,
          .value = 21.38805},
         {.label = "the export states it as GWP-total",
          .change = change_panels(state_total),
          .verdict = Verdict::information,
          .value = 21.38805},
         {.label = "the export states another figure of the panel",
          .change = set_of_panels(kStatedImpact, 30.0),
          .verdict = Verdict::not_assessed,
          .reason = "the export states 30.00 kg CO2e (Pset_EnvironmentalImpactValues.ClimateChange, "
                    "IfcPropertySingleValue Pset_EnvironmentalImpactValues.ClimateChange, 0000000000000000000001, line "
                    "7), but the declarations of the materials give 21.39 kg CO2e for A1–A3, or -38.15 kg CO2e as "
                    "GWP-total, more than 10 % apart: correct one of them, or say with "
                    "Pset_EnvironmentalImpactIndicators.LifeCyclePhase of which phase it is",
          .also_moves = kRestOnProduct},
         {.label = "the export states nearly the same for each m² of net wall",
          .change = together({set_of_panels(kStatedPerUnit, 3.3), set_of_panels(kStatedUnit, "m2")}),
          .verdict = Verdict::information,
          .value = 21.38805},
         {.label = "the export states another figure for each kg",
          .change = together({set_of_panels(kStatedPerUnit, 0.5), set_of_panels(kStatedUnit, "kg")}),
          .verdict = Verdict::not_assessed,
          .reason = "the export states 50.26 kg CO2e (Pset_EnvironmentalImpactIndicators.ClimateChangePerUnit times "
                    "100.521 kg, IfcPropertySingleValue Pset_EnvironmentalImpactIndicators.ClimateChangePerUnit, "
                    "0000000000000000000001, line 7), but the declarations of the materials give 21.39 kg CO2e for "
                    "A1–A3, or -38.15 kg CO2e as GWP-total, more than 10 % apart: correct one of them, or say with "
                    "Pset_EnvironmentalImpactIndicators.LifeCyclePhase of which phase it is",
          .also_moves = kRestOnProduct},
         {.label = "the export states a figure of no unit",
          .change = set_of_panels(kStatedPerUnit, 3.3),
          .verdict = Verdict::not_assessed,
          .reason = "Pset_EnvironmentalImpactIndicators.ClimateChangePerUnit (IfcPropertySingleValue "
                    "Pset_EnvironmentalImpactIndicators.ClimateChangePerUnit, 0000000000000000000001, line 7) has no "
                    "Pset_EnvironmentalImpactIndicators.Unit in which the panel can be counted: write m2, kg or piece",
          .also_moves = kRestOnProduct},
         {.label = "the export states a figure of another phase",
          .change = together({set_of_panels(kStatedImpact, 3.0), set_of_panels(kStatedPhase, "TRANSPORT")}),
          .verdict = Verdict::information,
          .value = 21.38805},
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
          .reason = "declaration of material 'gypsum board': document 'EPD-1': missing: no file at that place "
                    "('evidence/EPD-1'); declaration of material 'softwood': document 'EPD-1': missing: no file at "
                    "that place "
                    "('evidence/EPD-1')",
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
         {.label = "a document of another kind",
          .change = [](Project& project, Settings&) { project.evidence.front().kind = EvidenceKind::air_test_report; },
          .verdict = Verdict::evidence_needed,
          .reason =
              "declaration of material 'gypsum board': document 'EPD-1' is of the kind 'air test report'; needed: "
              "environmental declaration; declaration of material 'softwood': document 'EPD-1' is of the kind 'air "
              "test report'; needed: environmental declaration",
          .also_moves = {"*"}},
         {.label = "three times the carbon that the wood can hold",
          .change = together({set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpBiogenicA1A3", -2100.0),
                              set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpTotalC3", 2105.0)}),
          .verdict = Verdict::evidence_needed,
          .reason =
              "material 'softwood': its declaration takes up 5.000 kg CO2e of biogenic carbon a kg in A1–A3; wood "
              "of this mass and moisture content holds what corresponds to 1.15 to 1.88 (EN 16449:2014, formula "
              "(1))",
          .also_moves = {"*"}},
         {.label = "a kilogram of carbon in a cubic metre of wood",
          .change = set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpBiogenicA1A3", -1.0),
          .verdict = Verdict::evidence_needed,
          .reason =
              "material 'softwood': its declaration takes up 0.002 kg CO2e of biogenic carbon a kg in A1–A3; wood "
              "of this mass and moisture content holds what corresponds to 1.15 to 1.88 (EN 16449:2014, formula "
              "(1))",
          .also_moves = {"*"}},
         {.label = "fossil carbon below nothing",
          .change = set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpFossilA1A3", -1860.0),
          .verdict = Verdict::evidence_needed,
          .reason =
              "material 'softwood': its declaration states -4.429 kg CO2e of fossil carbon a kg for A1–A3; making "
              "a product emits, so the figure is above nothing",
          .also_moves = {"*"}},
         {.label = "figures of a cubic metre for a kilogram",
          .change = set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpFossilA1A3", 200.0),
          .verdict = Verdict::evidence_needed,
          .reason = "material 'gypsum board': its declaration states 200.000 kg CO2e of fossil carbon a kg for A1–A3; "
                    "usual of category 'gypsum' are 0.04 to 1.50 (plausible_declarations.csv, row 'gypsum' (common "
                    "practice)): check the declared unit",
          .also_moves = {"*"}},
         {.label = "figures of a cubic metre for a kilogram, of a thing that no table knows",
          .change = together({set_category(kBoardMaterial, "plaster slab"),
                              set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpFossilA1A3", 200.0)}),
          .verdict = Verdict::not_assessed,
          .reason = "material 'gypsum board' has IfcMaterial.Category 'plaster slab', so it cannot be told what it is; "
                    "write one of wood, gypsum, insulation, plastic, cement, concrete, masonry, ceramic, steel, "
                    "aluminium, metal, glass",
          .also_moves = {"*"}},
         {.label = "a thing that no category names",
          .change = set_category(kBoardMaterial, ""),
          .verdict = Verdict::not_assessed,
          .reason =
              "material 'gypsum board' has no IfcMaterial.Category, so it cannot be told what it is; write one of "
              "wood, gypsum, insulation, plastic, cement, concrete, masonry, ceramic, steel, aluminium, metal, "
              "glass",
          .also_moves = {"*"}},
         {.label = "wood by another name is judged as wood",
          .change = together({set_category(kWoodMaterial, "spruce"),
                              set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpFossilA1A3", 840.0)}),
          .verdict = Verdict::evidence_needed,
          .reason = "material 'softwood': its declaration states 2.000 kg CO2e of fossil carbon a kg for A1–A3; usual "
                    "of category 'wood' are 0.04 to 1.40 (plausible_declarations.csv, row 'wood' (common practice)): "
                    "check the declared unit",
          .also_moves = {"*"}},
         {.label = "a file of another product",
          .change = declare_by_file("product,,Stone wool slab,\nGWP-fossil,A1-A3,0.25,kg CO2e\n", true),
          .verdict = Verdict::evidence_needed,
          .reason = "material 'gypsum board': the declaration is of another product, 'Stone wool slab' "
                    "(evidence/EPD-2.csv, row 'line 2' (environmental declaration EPD-2)); name the right one in "
                    "DocumentId, or state Panel_EnvironmentalDeclaration.Product as the declaration has it",
          .also_moves = {"*"}},
         {.label = "a file of another country",
          .change = declare_by_file("geography,,AU,\nGWP-fossil,A1-A3,0.25,kg CO2e\n", true),
          .verdict = Verdict::evidence_needed,
          .reason = "material 'gypsum board': the declaration holds for 'AU' (evidence/EPD-2.csv, row 'line 2' "
                    "(environmental declaration EPD-2)) and project.jurisdiction is 'England'; state "
                    "Panel_EnvironmentalDeclaration.Geography if the material comes from there",
          .also_moves = {"*"}},
         {.label = "a file of another product and country that the export names",
          .change = together(
              {declare_by_file("product,,Stone wool slab,\ngeography,,AU,\nGWP-fossil,A1-A3,0.25,kg CO2e\n", true),
               set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.Product", "stone wool slab"),
               set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.Geography", "AU")}),
          .verdict = Verdict::information,
          .value = 21.38805},
         {.label = "a file of another product than the export names",
          .change =
              together({declare_by_file("product,,Stone wool slab,\nGWP-fossil,A1-A3,0.25,kg CO2e\n", true),
                        set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.Product", "gypsum board")}),
          .verdict = Verdict::evidence_needed,
          .reason =
              "material 'gypsum board': the declaration is of 'Stone wool slab' (evidence/EPD-2.csv, row 'line 2' "
              "(environmental declaration EPD-2)), but Panel_EnvironmentalDeclaration.Product is 'gypsum board'",
          .also_moves = {"*"}},
         {.label = "a file of another density",
          .change = declare_by_file("density,,600,kg/m3\nGWP-fossil,A1-A3,0.25,kg CO2e\n", true),
          .verdict = Verdict::evidence_needed,
          .reason = "material 'gypsum board' is declared for 600 kg/m³ and built in at 800 kg/m³ by the export: more "
                    "than 15 % apart, so the declaration is that of another product",
          .also_moves = {"*"}},
         {.label = "a file whose A1-A3 is not its three modules",
          .change = declare_by_file("GWP-fossil,A1-A3,0.25,kg CO2e\nGWP-fossil,A1,0.2,kg CO2e\n"
                                    "GWP-fossil,A2,0.02,kg CO2e\nGWP-fossil,A3,0.02,kg CO2e\n",
                                    true),
          .verdict = Verdict::evidence_needed,
          .reason = "the declaration of material 'gypsum board': GWP-fossil of A1-A3, 0.25 (evidence/EPD-2.csv, row "
                    "'line 2' (environmental declaration EPD-2)), is not the sum of A1, A2 and A3, 0.24",
          .also_moves = {"*"}},
         {.label = "a scenario that the file has not",
          .change = together({declare_by_file("GWP-fossil,A1-A3,0.25,kg CO2e\n", true),
                              set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.Scenario", "reuse")}),
          .verdict = Verdict::evidence_needed,
          .reason = "material 'gypsum board': Panel_EnvironmentalDeclaration.Scenario names 'reuse', which is no "
                    "scenario of its declaration",
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
         {.label = "a distance of nothing",
          .change = set_of_material(kBoardMaterial, "Panel_Supply.TransportDistance", 0.0),
          .verdict = Verdict::not_assessed,
          .reason = "material 'gypsum board': Panel_Supply.TransportDistance is 0 km, and no material comes from the "
                    "site itself",
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
          .also_moves = kRestOnWaste},
         {.label = "all is lost",
          .change = set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.WasteRateA5", 1.0),
          .verdict = Verdict::not_assessed,
          .reason = "material 'softwood': Panel_EnvironmentalDeclaration.WasteRateA5 must be at least 0 and below 1",
          .also_moves = kRestOnWaste},
         {.label = "a share that is not declared",
          .change = drop_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.WasteRateA5"),
          .verdict = Verdict::evidence_needed,
          .reason = "material 'softwood' has no Panel_EnvironmentalDeclaration.WasteRateA5",
          .also_moves = kRestOnWaste},
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
                .also_moves = kRestOnWaste}},
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
          .also_moves = {"carbon.d", "carbon.whole_life"}},
         {.label = "no study period",
          .change = drop_setting("carbon.study_period_years"),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'carbon.study_period_years' is missing",
          .also_moves = {"carbon.d", "carbon.whole_life"}},
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
                .also_moves = {"carbon.d", "carbon.whole_life"}}},
     .of_project = true}};

const std::string kNotGivenBack =
    "the declaration of material 'softwood' does not give back in C3 and C4, nor of packaging in A5, the biogenic "
    "carbon that A1–A3 takes up (EN 15804:2012+A2:2019, 6.3.5.5)";

const RegisterCases kEndOfLife{
    {.check = "carbon.c1_c4",
     .sound_project = declared_project,
     .sound_settings = declared_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::information, .value = 4.047975},
         {.label = "materials of one name stay apart",
          .change = rename_materials("material"),
          .verdict = Verdict::information,
          .value = 4.047975},
         {.label = "95 % of the biogenic carbon is given back",
          .change = set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpTotalC3", 665.0),
          .verdict = Verdict::information,
          .value = 3.622725,
          .also_moves = kRestOnProduct},
         {.label = "less than 95 % is given back",
          .change = set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpTotalC3", 664.9),
          .verdict = Verdict::evidence_needed,
          .reason = kNotGivenBack,
          .also_moves = kRestOnProduct},
         {.label = "packaging gives back in A5 what C3 and C4 do not",
          .change = together({set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpBiogenicA1A3", -0.1),
                              set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpTotalC3", 0.0),
                              set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpTotalC4", 0.0),
                              set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpBiogenicA5", 0.118)}),
          .verdict = Verdict::information,
          .value = 2.103975,
          .also_moves = {"carbon.a1_a3", "carbon.a5", "carbon.b4", "carbon.total_per_area", "carbon.whole_life"}},
         {.label = "packaging that nobody gives back",
          .change = together({set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpBiogenicA1A3", -0.1),
                              set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpTotalC3", 0.0),
                              set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpTotalC4", 0.0)}),
          .verdict = Verdict::evidence_needed,
          .reason = "the declaration of material 'gypsum board' does not give back in C3 and C4, nor of packaging in "
                    "A5, the biogenic carbon that A1–A3 takes up (EN 15804:2012+A2:2019, 6.3.5.5)",
          .also_moves = {"carbon.a1_a3", "carbon.a5", "carbon.b4", "carbon.total_per_area", "carbon.whole_life"}},
         {.label = "wood is no packaging: A5 gives back a tenth of it at most",
          .change = together({set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpTotalC3", 5.0),
                              set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpBiogenicA5", 700.0)}),
          .verdict = Verdict::evidence_needed,
          .reason = kNotGivenBack,
          .also_moves = kRestOnProduct},
         {.label = "carrying away that takes up",
          .change = set_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpTotalC2", -0.01),
          .verdict = Verdict::evidence_needed,
          .reason = "the declaration of material 'gypsum board': the fossil carbon of C2 is negative (-0.01)",
          .also_moves = kRestOnProduct},
         {.label = "more given back than was taken up",
          .change = together({set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpFossilC3", 5.0),
                              set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpBiogenicC3", 2100.0),
                              set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpLulucC3", 0.0),
                              set_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.GwpTotalC3", 2105.0)}),
          .verdict = Verdict::evidence_needed,
          .reason =
              "the declaration of material 'softwood' gives back in C3 and C4 2100 kg CO2e of biogenic carbon but "
              "takes up 700 in A1–A3 (EN 15804:2012+A2:2019, 6.3.5.5)",
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
     .cases = {{.label = "the sum of both panels", .verdict = Verdict::information, .value = 7.934355},
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
     .cases = {{.label = "as made", .verdict = Verdict::information, .value = -11.34},
               {.label = "materials of one name stay apart",
                .change = rename_materials("material"),
                .verdict = Verdict::information,
                .value = -11.34},
               {.label = "what is replaced is recovered twice",
                .change = set_of_material(kWoodMaterial, "Panel_Supply.ServiceLife", 30.0),
                .verdict = Verdict::information,
                .value = -22.68,
                .also_moves = {"carbon.b4", "carbon.whole_life"}},
               {.label = "a share of waste that is not declared",
                .change = drop_of_material(kWoodMaterial, "Panel_EnvironmentalDeclaration.WasteRateA5"),
                .verdict = Verdict::evidence_needed,
                .reason = "material 'softwood' has no Panel_EnvironmentalDeclaration.WasteRateA5",
                .also_moves = {"carbon.a5", "carbon.b4", "carbon.total_per_area", "carbon.whole_life"}},
               {.label = "not declared, which moves no total",
                .change = drop_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpTotalD"),
                .verdict = Verdict::evidence_needed,
                .reason = "material 'gypsum board' has no Panel_EnvironmentalDeclaration.GwpTotalD"}}}};

const RegisterCases kBeyondBoundaryOfProject{
    {.check = "carbon.d",
     .sound_project = two_declared_panels,
     .sound_settings = declared_settings,
     .cases = {{.label = "the sum of both panels", .verdict = Verdict::information, .value = -20.412},
               {.label = "not declared",
                .change = drop_of_material(kBoardMaterial, "Panel_EnvironmentalDeclaration.GwpTotalD"),
                .verdict = Verdict::evidence_needed,
                .reason = "2 panels have no carbon.d: " + kBoth}},
     .of_project = true}};

}  // namespace
