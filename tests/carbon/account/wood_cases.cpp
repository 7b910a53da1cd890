// Cases of carbon stored in wood and of its chain of custody, on the panels of modules_cases.cpp.
#include <functional>
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// The certificate of the chain of custody.
Change change_certificate(const std::function<void(Evidence&)>& change) {
  return [change](Project& project, Settings&) { change(project.evidence.at(1)); };
}

/// Nothing tells that the softwood is wood.
void name_no_wood(Project& project, Settings& /*settings*/) {
  Material& material = project.materials[kWoodMaterial];
  material.category = "spruce";
  remove(material.properties, "Panel_Timber.ReferenceMoistureContent");
}

const std::string kUnknown =
    "material 'softwood' has IfcMaterial.Category 'spruce', so it cannot be told what it is; write one of wood, "
    "gypsum, "
    "insulation, plastic, cement, concrete, masonry, ceramic, steel, aluminium, metal, glass";

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
          .value = 32.74425,
          .also_moves = {"*"}},
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
          .also_moves = {"*"}},
         {.label = "wood that nothing calls so",
          .change = name_no_wood,
          .verdict = Verdict::not_assessed,
          .reason = kUnknown,
          .also_moves = {"*"}},
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
          .reason = "material 'softwood': Panel_Supply.ChainOfCustodyDocument is missing"},
         {.label = "a text that is no certificate",
          .change = change_certificate([](Evidence& certificate) { certificate.kind = EvidenceKind::not_stated; }),
          .verdict = Verdict::evidence_needed,
          .value = 0.0,
          .reason = "material 'softwood': document 'COC-1' is of no stated kind; needed: chain of custody certificate "
                    "(evidence/evidence.csv, column kind)"},
         {.label = "a certificate that ran out",
          .change = change_certificate([](Evidence& certificate) { certificate.expires = "2026-05-31"; }),
          .verdict = Verdict::evidence_needed,
          .value = 0.0,
          .reason = "material 'softwood': document 'COC-1' has expired on the assessment date 2026-06-01 "
                    "(project.assessment_date): it was valid until 2026-05-31"},
         {.label = "a certificate without holder and last day",
          .change = change_certificate([](Evidence& certificate) {
            certificate.subject.clear();
            certificate.expires.clear();
          }),
          .verdict = Verdict::evidence_needed,
          .value = 0.0,
          .reason = "material 'softwood': document 'COC-1' does not say of itself (evidence/evidence.csv, columns): "
                    "subject, the holder; expires"},
         {.label = "a certificate of other wood",
          .change = change_certificate([](Evidence& certificate) { certificate.scope = "plywood"; }),
          .verdict = Verdict::evidence_needed,
          .value = 0.0,
          .reason = "material 'softwood': document 'COC-1' covers 'plywood', which does not name 'softwood'"},
         {.label = "a certificate of another claim",
          .change = set_of_material(kWoodMaterial, "Panel_Supply.ChainOfCustodyClaim", "RECLAIMED"),
          .verdict = Verdict::evidence_needed,
          .value = 0.0,
          .reason = "material 'softwood': document 'COC-1' covers 'softwood, strand board, other material: CERTIFIED', "
                    "which does not hold the claim RECLAIMED"},
         {.label = "a day before the certificate",
          .change = set_of_material(kWoodMaterial, "Panel_Supply.ChainOfCustodyDate", "2024-03-02"),
          .verdict = Verdict::evidence_needed,
          .value = 0.0,
          .reason = "material 'softwood': Panel_Supply.ChainOfCustodyDate 2024-03-02 lies before document 'COC-1' was "
                    "issued, on 2025-01-01"},
         {.label = "no delivery note",
          .change = drop_of_material(kWoodMaterial, "Panel_Supply.DeliveryNote"),
          .verdict = Verdict::evidence_needed,
          .value = 0.0,
          .reason = "material 'softwood': Panel_Supply.DeliveryNote is missing, which shows that the certificate's "
                    "claim goes with what was delivered"},
         {.label = "a certificate for its own delivery note",
          .change = set_of_material(kWoodMaterial, "Panel_Supply.DeliveryNote", "COC-1"),
          .verdict = Verdict::evidence_needed,
          .value = 0.0,
          .reason = "material 'softwood': delivery note 'COC-1' is the certificate itself"},
         {.label = "a delivery note of another batch",
          .change = change_panels([](Panel& panel) {
            for (Part& part : panel.parts) {
              put(part.properties, "Pset_ManufacturerOccurrence", "BatchReference", std::string("B-7"));
            }
          }),
          .verdict = Verdict::evidence_needed,
          .value = 0.0,
          .reason = "batch 'B-7' of material 'softwood': delivery note 'DN-1' does not name the batch 'B-7' in its "
                    "scope or subject (evidence/evidence.csv)"},
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
          .also_moves = {"*"}},
         {.label = "wood that nothing calls so",
          .change = name_no_wood,
          .verdict = Verdict::not_assessed,
          .reason = kUnknown,
          .also_moves = {"*"}},
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
                .also_moves = {"*"}}},
     .of_project = true}};

}  // namespace
