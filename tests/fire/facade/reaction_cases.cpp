// Cases of reaction to fire: surfaces, external walls and what can burn during construction.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/fire/facade/cavity_panel.h"
#include "tests/fire/tested_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kReaction = "fire.reaction_to_fire";
constexpr const char* kExternal = "fire.external_wall_material";
constexpr const char* kRequired = "fire.required_resistance";
constexpr const char* kConstruction = "fire.during_construction";

Change outer_board_of_osb() {
  return change_panels([](Panel& panel) { panel.layers.back().material = kOsb; });
}

/// A hospital whose top floor lies this high.
Change hospital(double top_m) {
  return together(
      {set_setting("project.use", std::string("hospital")), set_setting("building.top_storey_height_m", top_m)});
}

Change membrane_outside() {
  return change_panels([](Panel& panel) { add_layer(panel, "breather", "membrane", kOsb, 0.169, 0.1695); });
}

void forget_report(Project& project, Settings& /*settings*/) {
  project.evidence.clear();
  project.panels.front().evidence.clear();
}

constexpr const char* kNoReport =
    "no classification report and no declaration of performance of the panel stands behind the reaction to fire "
    "classes "
    "(IfcRelAssociatesDocument, or Panel_Fire.DocumentId of the material)";

const RegisterCases kReactionCases{
    {.check = kReaction,
     .sound_project = classified_panel,
     .sound_settings = cassette_settings,
     .cases = {
         {.label = "both surfaces", .verdict = Verdict::information, .value = "inner D-s2,d0; outer A2-s1,d0"},
         {.label = "a material without class",
          .change = drop_of_material(kGypsum, "Panel_Fire.ReactionToFire"),
          .verdict = Verdict::evidence_needed,
          .reason = "a class is needed of every layer; material 'gypsum': Panel_Fire.ReactionToFire",
          .also_moves = {kExternal, kConstruction}},
         {.label = "a national class",
          .change = set_of_material(kGypsum, "Panel_Fire.ReactionToFire", "Class 0"),
          .verdict = Verdict::evidence_needed,
          .reason = "a class is needed of every layer; 'Class 0' of material 'gypsum' is not a class of EN 13501-1",
          .also_moves = {kExternal, kConstruction}},
         {.label = "a layer between the surfaces without class",
          .change = drop_of_material(kWool, "Panel_Fire.ReactionToFire"),
          .verdict = Verdict::evidence_needed,
          .reason = "a class is needed of every layer; material 'stone wool': Panel_Fire.ReactionToFire",
          .also_moves = {kConstruction}},
         {.label = "wood that does not burn",
          .change = set_of_material(kOsb, "Panel_Fire.ReactionToFire", "A1"),
          .verdict = Verdict::evidence_needed,
          .reason =
              "a class is needed of every layer; 'A1' of material 'OSB' (Panel_Fire.ReactionToFire) cannot be: its "
              "IfcMaterial.Category is 'wood'"},
         {.label = "no document behind the classes",
          .change = forget_report,
          .verdict = Verdict::evidence_needed,
          .reason = kNoReport,
          .also_moves = {kExternal}},
         {.label = "an emptied report behind the classes",
          .change = [](Project& project, Settings&) { project.evidence.front().status = EvidenceStatus::empty; },
          .verdict = Verdict::evidence_needed,
          .reason = "document 'RF-1': the file is empty ('evidence/RF-1.txt')",
          .also_moves = {kExternal}},
         {.label = "a report of fire resistance behind the classes",
          .change = [](Project& project, Settings&) { project.evidence.front().standard = "EN 13501-2:2016"; },
          .verdict = Verdict::evidence_needed,
          .reason = "document 'RF-1' is to 'EN 13501-2:2016', which gives no class of EN 13501-1",
          .also_moves = {kExternal}},
         {.label = "a material whose own document is not in the export",
          .change = set_of_material(kGypsum, "Panel_Fire.DocumentId", "DoP-9"),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'DoP-9' is not in the export (IfcDocumentReference)",
          .also_moves = {kExternal}},
         {.label = "a material's document that is no longer valid",
          .change = together({set_of_material(kGypsum, "Panel_Fire.DocumentId", "RF-1"),
                              set_setting("project.assessment_date", std::string("2026-06-01")),
                              [](Project& project, Settings&) { project.evidence.front().expires = "2026-05-31"; }}),
          .verdict = Verdict::evidence_needed,
          .reason =
              "document 'RF-1' has expired on the assessment date 2026-06-01 (project.assessment_date): it was valid "
              "until 2026-05-31",
          .also_moves = {kExternal}},
         {.label = "no layers",
          .change = change_panels([](Panel& panel) { panel.layers.clear(); }),
          .verdict = Verdict::not_assessed,
          .reason = "the panel has no material layers (IfcMaterialLayerSet)",
          .also_moves = {kExternal, "fire.cavity_barriers", kConstruction}},
     }}};

const RegisterCases kExternalCases{
    {.check = kExternal,
     .sound_project = classified_panel,
     .sound_settings = cassette_settings,
     .cases = {
         {.label = "good enough next to the boundary, without a distance",
          .verdict = Verdict::pass,
          .value = "A2-s1,d0 of 'outer board'"},
         {.label = "a combustible surface and no distance",
          .change = outer_board_of_osb(),
          .verdict = Verdict::not_assessed,
          .reason = "setting building.boundary_distance_m: the class B-s3,d2 asked for within 1 m of the boundary is "
                    "not met",
          .also_moves = {kReaction}},
         {.label = "a combustible surface at 1 m",
          .change = together({outer_board_of_osb(), set_setting("building.boundary_distance_m", 1.0)}),
          .verdict = Verdict::pass,
          .value = "D-s2,d0 of 'outer board'",
          .also_moves = {kReaction}},
         {.label = "a combustible surface nearer than 1 m",
          .change = together({outer_board_of_osb(), set_setting("building.boundary_distance_m", 0.999)}),
          .verdict = Verdict::fail,
          .value = "D-s2,d0 of 'outer board'",
          .reason = "not of the class required: 'outer board' (D-s2,d0)",
          .also_moves = {kReaction}},
         {.label = "the panel itself stands nearer than the building",
          .change = together({outer_board_of_osb(), set_setting("building.boundary_distance_m", 6.0),
                              set_of_panels("Panel_FireRequirement.BoundaryDistance", 0.5)}),
          .verdict = Verdict::fail,
          .reason = "not of the class required: 'outer board' (D-s2,d0)",
          .also_moves = {kReaction}},
         {.label = "a negative distance",
          .change = set_setting("building.boundary_distance_m", -1.0),
          .verdict = Verdict::not_assessed,
          .reason = "the distance to the relevant boundary must not be negative (setting "
                    "'building.boundary_distance_m')",
          .also_moves = {kRequired}},
         {.label = "people sleep below 18 m",
          .change = hospital(17.9),
          .verdict = Verdict::pass,
          .value = "A2-s1,d0 of 'outer board'"},
         {.label = "people sleep at 18 m",
          .change = hospital(18.0),
          .verdict = Verdict::fail,
          .reason = "not of the class required: 'inner board' (D-s2,d0) 'S1' (D-s2,d0)"},
         {.label = "materials of one name are told apart",
          .change = together({hospital(18.0), rename_materials("material")}),
          .verdict = Verdict::fail,
          .value = "D-s2,d0 of 'inner board'",
          .reason = "not of the class required: 'inner board' (D-s2,d0) 'S1' (D-s2,d0)"},
         {.label = "insulation in a tall building",
          .change = together({set_setting("building.top_storey_height_m", 18.0),
                              set_of_material(kWool, "Panel_Fire.ReactionToFire", "E")}),
          .verdict = Verdict::fail,
          .value = "A2-s1,d0 of 'outer board'",
          .reason = "not of the class required: 'studs' (E)",
          .also_moves = {kConstruction}},
         {.label = "a membrane outermost",
          .change = membrane_outside(),
          .verdict = Verdict::not_assessed,
          .reason = "the outermost layer is the membrane 'breather': class of the outer leaf over it "
                    "(Panel_Construction.OuterLeafReactionToFire)",
          .also_moves = {kReaction, kConstruction}},
         {.label = "a leaf over the membrane",
          .change = together({membrane_outside(), set_of_panels("Panel_Construction.OuterLeafReactionToFire", "A1")}),
          .verdict = Verdict::pass,
          .value = "A1 of outer leaf fixed on site by others",
          .also_moves = {kReaction, kConstruction}},
         {.label = "a jurisdiction without rule, the engineer's class not met",
          .change = together({set_setting("project.jurisdiction", std::string("Scotland")),
                              set_setting("fire.external_wall_class", std::string("A1"))}),
          .verdict = Verdict::fail,
          .value = "A2-s1,d0 of 'outer board'",
          .reason = "not of the class required: 'outer board' (A2-s1,d0)",
          .also_moves = {kRequired}},
         {.label = "the class that the engineer gives for the building, and a panel nearer to the boundary",
          .change = together({set_setting("project.jurisdiction", std::string("Scotland")),
                              set_setting("fire.external_wall_class", std::string("B-s3,d2")),
                              set_setting("building.boundary_distance_m", 6.0),
                              set_of_panels("Panel_FireRequirement.BoundaryDistance", 0.5)}),
          .verdict = Verdict::not_assessed,
          .reason = "setting fire.external_wall_class holds 6 m from the boundary "
                    "(building.boundary_distance_m), and the "
                    "panel stands at 0.5 m (Panel_FireRequirement.BoundaryDistance): the fire engineer gives "
                    "its class by "
                    "Panel_FireRequirement.ReactionToFire",
          .also_moves = {kRequired}},
         {.label = "the class that the engineer gives for the panel, nearer to the boundary",
          .change = together({set_setting("project.jurisdiction", std::string("Scotland")),
                              set_setting("fire.external_wall_class", std::string("B-s3,d2")),
                              set_of_panels("Panel_FireRequirement.ReactionToFire", "A2-s1,d0"),
                              set_setting("building.boundary_distance_m", 6.0),
                              set_of_panels("Panel_FireRequirement.BoundaryDistance", 0.5)}),
          .verdict = Verdict::pass,
          .value = "A2-s1,d0 of 'outer board'",
          .also_moves = {kRequired}},
         {.label = "no document behind the class of the surface",
          .change = forget_report,
          .verdict = Verdict::evidence_needed,
          .value = "A2-s1,d0 of 'outer board'",
          .reason = kNoReport,
          .also_moves = {kReaction}},
         {.label = "inside the building",
          .change = set_of_panels("Pset_WallCommon.IsExternal", false),
          .verdict = Verdict::information,
          .value = "not external"},
         {.label = "said to be inside, with a window to the outside",
          .change = together({set_of_panels("Pset_WallCommon.IsExternal", false),
                              [](Project& project, Settings&) { add_window(project); }}),
          .verdict = Verdict::not_assessed,
          .reason = "Pset_WallCommon.IsExternal is no, and 'window' holds a window: one of them is wrong",
          .also_moves = {kConstruction}},
         {.label = "said to be inside, with wind on it",
          .change = together({set_of_panels("Pset_WallCommon.IsExternal", false),
                              set_of_panels("Panel_Structure.DesignWindPressure", 600.0)}),
          .verdict = Verdict::not_assessed,
          .reason = "Pset_WallCommon.IsExternal is no, and Panel_Structure.DesignWindPressure is 600 Pa: one of them "
                    "is wrong"},
         {.label = "said to be inside, with ventilated cladding",
          .change = together({set_of_panels("Pset_WallCommon.IsExternal", false),
                              change_panels([](Panel& panel) { panel.layers.back().is_ventilated = true; })}),
          .verdict = Verdict::not_assessed,
          .reason = "Pset_WallCommon.IsExternal is no, and layer 'outer board' is ventilated: one of them is wrong"},
         {.label = "said to be inside, with an outer leaf over it",
          .change = together({set_of_panels("Pset_WallCommon.IsExternal", false),
                              set_of_panels("Panel_Construction.OuterLeafReactionToFire", "A1")}),
          .verdict = Verdict::not_assessed,
          .reason = "Pset_WallCommon.IsExternal is no, and an outer leaf stands over it "
                    "(Panel_Construction.OuterLeafReactionToFire): one of them is wrong"},
         {.label = "said to be inside, at a distance to the boundary",
          .change = together({set_of_panels("Pset_WallCommon.IsExternal", false),
                              set_of_panels("Panel_FireRequirement.BoundaryDistance", 6.0)}),
          .verdict = Verdict::not_assessed,
          .reason = "Pset_WallCommon.IsExternal is no, and Panel_FireRequirement.BoundaryDistance is 6 m: one "
                    "of them is "
                    "wrong"},
         {.label = "the top of the panel above the zone of an assembly building",
          .change = together(
              {set_setting("project.use", std::string("school")), set_setting("building.boundary_distance_m", 6.0),
               set_setting("building.ground_level_m", -7.1), change_panels([](Panel& panel) { panel.storey = 0; })}),
          .verdict = Verdict::pass,
          .value = "A2-s1,d0 of 'outer board'",
          .also_moves = {"fire.cavity_barriers"}},
         {.label = "does not see: an outer leaf whose class the export does not state",
          .change = set_of_panels("Panel_Construction.OuterLeafByOthers", "timber boards"),
          .verdict = Verdict::pass,
          .value = "A2-s1,d0 of 'outer board'",
          .unchanged = true},
     }}};

// Studs and rails 53.028675 kg, sheets of OSB 107.136 kg; the gram of gypsum and that of stone wool do not burn.
constexpr double kWood_kg = 160.164675;
constexpr double kFace_m2 = 2.4 * 3.0;

const RegisterCases kMassCases{
    {.check = kConstruction,
     .sound_project = classified_panel,
     .sound_settings = cassette_settings,
     .cases = {
         {.label = "all but A1 and A2", .verdict = Verdict::information, .value = kWood_kg / kFace_m2},
         {.label = "a material without class counts as combustible",
          .change = drop_of_material(kWool, "Panel_Fire.ReactionToFire"),
          .verdict = Verdict::information,
          .value = (kWood_kg + 0.001) / kFace_m2,
          .also_moves = {kReaction}},
         {.label = "class B burns, as A2 does not",
          .change = set_of_material(kGypsum, "Panel_Fire.ReactionToFire", "B-s1,d0"),
          .verdict = Verdict::information,
          .value = (kWood_kg + 0.001) / kFace_m2,
          .also_moves = {kReaction, kExternal}},
         {.label = "a part without a mass",
          .change = drop_of_material(kTimber, "Pset_MaterialCommon.MassDensity"),
          .verdict = Verdict::not_assessed,
          .reason = "material 'softwood' has no positive Pset_MaterialCommon.MassDensity"},
     }}};

const RegisterCases kProjectMassCases{
    {.check = kConstruction,
     .sound_project = classified_panel,
     .sound_settings = cassette_settings,
     .cases =
         {
             {.label = "one panel", .verdict = Verdict::information, .value = kWood_kg},
             {.label = "a panel without a mass",
              .change = drop_of_material(kTimber, "Pset_MaterialCommon.MassDensity"),
              .verdict = Verdict::not_assessed,
              .reason = "1 panels have no fire.during_construction: their findings say what is missing"},
         },
     .of_project = true}};

}  // namespace
