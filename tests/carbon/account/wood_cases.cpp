// Cases of carbon stored in wood and of its chain of custody, on the panels of modules_cases.cpp.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// The softwood is another material, without moisture content.
void take_wood_away(Project& project, Settings& /*settings*/) {
  Material& material = project.materials[kWoodMaterial];
  material.category = "steel";
  remove(material.properties, "Panel_Timber.ReferenceMoistureContent");
}

const RegisterCases kStorage{
    {.check = "carbon.biogenic_storage",
     .sound_project = declared_project,
     .sound_settings = declared_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::information, .value = 58.471875},
         {.label = "materials of one name stay apart",
          .change = rename_materials("material"),
          .verdict = Verdict::information,
          .value = 58.471875},
         {.label = "as much water as wood",
          .change = set_of_material(kWoodMaterial, "Panel_Timber.ReferenceMoistureContent", 1.0),
          .verdict = Verdict::information,
          .value = 32.74425},
         {.label = "a moisture content in per cent",
          .change = set_of_material(kWoodMaterial, "Panel_Timber.ReferenceMoistureContent", 12.0),
          .verdict = Verdict::not_assessed,
          .reason = "material 'softwood': the moisture content is above 1; it is a ratio of masses, so 12 % is 0.12"},
         {.label = "no moisture content",
          .change = drop_of_material(kWoodMaterial, "Panel_Timber.ReferenceMoistureContent"),
          .verdict = Verdict::not_assessed,
          .reason = "material 'softwood' has no Panel_Timber.ReferenceMoistureContent"},
         {.label = "no wood",
          .change = take_wood_away,
          .verdict = Verdict::information,
          .value = 0.0,
          .also_moves = {"carbon.chain_of_custody"}},
     }}};

const RegisterCases kStorageOfProject{
    {.check = "carbon.biogenic_storage",
     .sound_project = two_declared_panels,
     .sound_settings = declared_settings,
     .cases = {{.label = "the sum of both panels", .verdict = Verdict::information, .value = 105.249375},
               {.label = "no moisture content",
                .change = drop_of_material(kWoodMaterial, "Panel_Timber.ReferenceMoistureContent"),
                .verdict = Verdict::not_assessed,
                .reason = "2 panels have no carbon.biogenic_storage: P-01, P-02"}},
     .of_project = true}};

const RegisterCases kCustody{
    {.check = "carbon.chain_of_custody",
     .sound_project = declared_project,
     .sound_settings = declared_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::information, .value = 100.0},
         {.label = "a document of the day of assessment",
          .change = set_of_material(kWoodMaterial, "Panel_Supply.ChainOfCustodyDate", "2026-06-01"),
          .verdict = Verdict::information,
          .value = 100.0},
         {.label = "a document of the day after",
          .change = set_of_material(kWoodMaterial, "Panel_Supply.ChainOfCustodyDate", "2026-06-02"),
          .verdict = Verdict::evidence_needed,
          .value = 0.0,
          .reason = "material 'softwood': Panel_Supply.ChainOfCustodyDate 2026-06-02 lies after "
                    "project.assessment_date 2026-06-01"},
         {.label = "no claim",
          .change = drop_of_material(kWoodMaterial, "Panel_Supply.ChainOfCustodyClaim"),
          .verdict = Verdict::evidence_needed,
          .value = 0.0,
          .reason = "material 'softwood' has no Panel_Supply.ChainOfCustodyClaim"},
         {.label = "a claim that nobody knows",
          .change = set_of_material(kWoodMaterial, "Panel_Supply.ChainOfCustodyClaim", "GREEN"),
          .verdict = Verdict::evidence_needed,
          .value = 0.0,
          .reason = "material 'softwood' claims 'GREEN', which is none of CERTIFIED, CONTROLLED and RECLAIMED"},
         {.label = "no document",
          .change = drop_of_material(kWoodMaterial, "Panel_Supply.ChainOfCustodyDocument"),
          .verdict = Verdict::evidence_needed,
          .value = 0.0,
          .reason = "material 'softwood' has no Panel_Supply.ChainOfCustodyDocument"},
         {.label = "two claims under one batch",
          .change = change_panels([](Panel& panel) {
            put(panel.parts[1].properties, "Panel_Supply", "ChainOfCustodyClaim", std::string("RECLAIMED"));
          }),
          .verdict = Verdict::evidence_needed,
          .value = 0.0,
          .reason =
              "material 'softwood': Panel_Supply.ChainOfCustodyClaim of 'Stud 2' is 'RECLAIMED' but that of 'Stud "
              "1' is 'CERTIFIED'; correct it, or give each delivery its own BatchReference"},
         {.label = "wood without volume",
          .change = change_panels([](Panel& panel) {
            for (Part& part : panel.parts) {
              if (part.kind != PartKind::stud) continue;
              part.bounds.reset();
              part.volume_m3.reset();
            }
          }),
          .verdict = Verdict::not_assessed,
          .reason = "a part of material 'softwood' has no volume",
          .also_moves = {"*"}},
         {.label = "no wood",
          .change = take_wood_away,
          .verdict = Verdict::information,
          .value = std::string("no wood"),
          .also_moves = {"carbon.biogenic_storage"}},
     }}};

const RegisterCases kCustodyOfProject{
    {.check = "carbon.chain_of_custody",
     .sound_project = two_declared_panels,
     .sound_settings = declared_settings,
     .cases = {{.label = "both panels", .verdict = Verdict::information, .value = 100.0},
               {.label = "a document of the day after the assessment",
                .change = set_of_material(kWoodMaterial, "Panel_Supply.ChainOfCustodyDate", "2026-06-02"),
                .verdict = Verdict::evidence_needed,
                .value = 0.0,
                .reason = "part of the wood has no documented claim; see the panels' findings"},
               {.label = "no wood",
                .change = take_wood_away,
                .verdict = Verdict::not_assessed,
                .reason = "no panel holds wood whose volume is known",
                .also_moves = {"carbon.biogenic_storage"}}},
     .of_project = true}};

}  // namespace
