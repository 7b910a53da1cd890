// Cases of the class required, of what test evidence shows against it, and of penetrations.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/fire/tested_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kRequired = "fire.required_resistance";
constexpr const char* kSeparating = "fire.resistance_integrity_insulation";
constexpr const char* kLoadBearing = "fire.resistance_load_bearing";
constexpr const char* kEvidence = "fire.evidence";
constexpr const char* kExternal = "fire.external_wall_material";
constexpr const char* kMass = "fire.during_construction";
constexpr const char* kSeals = "fire.penetration_seals";
constexpr const char* kReaction = "fire.reaction_to_fire";

Change set_required(const char* text) {
  return set_of_panels("Panel_FireRequirement.Resistance", text);
}

Change set_tested(const char* text) {
  return set_of_panels("Panel_FireEvidence.Resistance", text);
}

/// No class of the panel or the building: an office of 7.2 m in England without sprinklers at this distance.
Change by_tables(double boundary_m) {
  return together({drop_of_panels("Panel_FireRequirement.Resistance"), drop_setting("building.fire_resistance_minutes"),
                   set_setting("building.sprinklers", false), set_setting("building.boundary_distance_m", boundary_m)});
}

Change set_status(EvidenceStatus status) {
  return [status](Project& project, Settings&) { project.evidence.front().status = status; };
}

/// Of the fire test report.
Change set_document(std::string Evidence::*field, std::string text) {
  return [=](Project& project, Settings&) { project.evidence.front().*field = text; };
}

Change set_kind(EvidenceKind kind) {
  return [kind](Project& project, Settings&) { project.evidence.front().kind = kind; };
}

/// A jurisdiction without tables, with a document behind the class asked for.
Change by_strategy(EvidenceKind kind) {
  return together({set_setting("project.jurisdiction", std::string("Scotland")),
                   set_setting("fire.external_wall_class", std::string("A2-s3,d2")),
                   set_of_panels("Panel_FireRequirement.DocumentId", "FS-1"),
                   [kind](Project& project, Settings&) { add_document(project, "FS-1", kind); }});
}

/// A layer outside the boards that the test did not have, with a class of its own.
Change add_outside(double thickness_m, const char* reaction) {
  return [=](Project& project, Settings&) {
    project.materials.push_back(material_of("added", "insulation", 30.0));
    project.materials.back().properties.add("Panel_Fire", "ReactionToFire", property_of(reaction));
    Panel& panel = project.panels.front();
    const double inside_m = panel.layers.back().y_outside_m;
    add_layer(panel, "outer layer", "insulation", project.materials.size() - 1, inside_m, inside_m + thickness_m);
  };
}

Change set_build_up(const char* text) {
  return set_of_panels("Panel_FireEvidence.BuildUp", text);
}

void forget_documents(Project& project, Settings& /*settings*/) {
  project.evidence.clear();
  project.panels.front().evidence.clear();
}

void cut_opening(Panel& panel) {
  Opening opening;
  opening.name = "duct";
  opening.x_min_m = 1.0;
  opening.x_max_m = 1.2;
  opening.z_min_m = 2.0;
  opening.z_max_m = 2.2;
  panel.openings.push_back(opening);
}

const RegisterCases kRequiredCases{
    {.check = kRequired,
     .sound_project = tested_panel,
     .sound_settings = fire_settings,
     .cases = {
         {.label = "the class of the panel", .verdict = Verdict::information, .value = "EI 60"},
         {.label = "the class of the building where the panel has none",
          .change = drop_of_panels("Panel_FireRequirement.Resistance"),
          .verdict = Verdict::information,
          .value = "EI 60"},
         {.label = "with R where the panel is load-bearing",
          .change = together(
              {drop_of_panels("Panel_FireRequirement.Resistance"), set_of_panels("Pset_WallCommon.LoadBearing", true)}),
          .verdict = Verdict::information,
          .value = "REI 60",
          .also_moves = {kSeparating, kLoadBearing}},
         {.label = "no period of the settings",
          .change = together({drop_of_panels("Panel_FireRequirement.Resistance"),
                              set_setting("building.fire_resistance_minutes", 0.0)}),
          .verdict = Verdict::not_assessed,
          .reason = "fire resistance required of the building must be greater than zero (setting "
                    "'building.fire_resistance_minutes')",
          .also_moves = {kSeparating, kLoadBearing}},
         {.label = "a period that is no class",
          .change = together({drop_of_panels("Panel_FireRequirement.Resistance"),
                              set_setting("building.fire_resistance_minutes", 61.0)}),
          .verdict = Verdict::not_assessed,
          .reason = "'EI 61' is not a class of EN 13501-2 (setting building.fire_resistance_minutes)",
          .also_moves = {kSeparating, kLoadBearing}},
         {.label = "the class of the tables, at 1 m from the boundary",
          .change = by_tables(1.0),
          .verdict = Verdict::information,
          .value = "EI 15 / E 60 (i→o)",
          .also_moves = {kSeparating, kExternal}},
         {.label = "nearer to the boundary than 1 m",
          .change = by_tables(0.999),
          .verdict = Verdict::information,
          .value = "EI 60 (i↔o)",
          .also_moves = {kSeparating, kExternal}},
         {.label = "the panel's own distance counts before the building's",
          .change = together({by_tables(6.0), set_of_panels("Panel_FireRequirement.BoundaryDistance", 0.5)}),
          .verdict = Verdict::information,
          .value = "EI 60 (i↔o)",
          .also_moves = {kSeparating, kExternal}},
         {.label = "not known whether there are sprinklers, and enough without them",
          .change = drop_setting("building.sprinklers"),
          .verdict = Verdict::information,
          .value = "EI 60"},
         {.label = "not known whether there are sprinklers, and too little without them",
          .change = together({drop_setting("building.sprinklers"), set_required("EI 30")}),
          .verdict = Verdict::evidence_needed,
          .reason = "the class required, 'EI 30' (Panel_FireRequirement.Resistance), is checked by no table: setting "
                    "building.sprinklers; name the document that gives it (Panel_FireRequirement.DocumentId)",
          .also_moves = {kSeparating}},
         {.label = "a negative distance",
          .change = by_tables(-1.0),
          .verdict = Verdict::not_assessed,
          .reason = "the distance to the relevant boundary must not be negative",
          .also_moves = {kSeparating, kLoadBearing, kExternal}},
         {.label = "a class below that of the tables",
          .change = together({set_required("EI 30"), set_setting("building.sprinklers", false),
                              set_setting("building.boundary_distance_m", 2.0)}),
          .verdict = Verdict::evidence_needed,
          .reason = "the class required is below the EI 15 / E 60 (i→o) of the tables; the fire engineer must give the "
                    "reason",
          .also_moves = {kSeparating, kExternal}},
         {.label = "a class that no table checks for want of the use",
          .change = together({set_required("EI 30"), drop_setting("project.use")}),
          .verdict = Verdict::evidence_needed,
          .reason = "the class required, 'EI 30' (Panel_FireRequirement.Resistance), is checked by no table: setting "
                    "project.use; name the document that gives it (Panel_FireRequirement.DocumentId)",
          .also_moves = {kSeparating, kExternal}},
         {.label = "a class asked for in a jurisdiction without tables",
          .change = together({set_required("EI 15"), set_setting("project.jurisdiction", std::string("Scotland"))}),
          .verdict = Verdict::evidence_needed,
          .reason =
              "the class required, 'EI 15' (Panel_FireRequirement.Resistance), is checked by no table: the tables "
              "hold no period for 'office' in Scotland; name the document that gives it "
              "(Panel_FireRequirement.DocumentId)",
          .also_moves = {kSeparating, kExternal}},
         {.label = "a period of the settings in a jurisdiction without tables",
          .change = together({drop_of_panels("Panel_FireRequirement.Resistance"),
                              set_setting("project.jurisdiction", std::string("Scotland"))}),
          .verdict = Verdict::evidence_needed,
          .reason =
              "the class required, 60 min (setting building.fire_resistance_minutes), is checked by no table: the "
              "tables hold no period for 'office' in Scotland; name the document that gives it "
              "(Panel_FireRequirement.DocumentId)",
          .also_moves = {kSeparating, kExternal}},
         {.label = "a fire strategy that gives the class where there are no tables",
          .change = together({set_required("EI 15"), by_strategy(EvidenceKind::fire_strategy)}),
          .verdict = Verdict::information,
          .value = "EI 15",
          .also_moves = {"*"}},
         {.label = "a test report in place of the fire strategy",
          .change = by_strategy(EvidenceKind::fire_test_report),
          .verdict = Verdict::evidence_needed,
          .reason =
              "the class required, 'EI 60' (Panel_FireRequirement.Resistance), is checked by no table: the tables "
              "hold no period for 'office' in Scotland; document 'FS-1' is of the kind 'fire test report'; needed: "
              "fire strategy",
          .also_moves = {"*"}},
         {.label = "delivery notes in place of the fire strategy",
          .change = by_strategy(EvidenceKind::other),
          .verdict = Verdict::evidence_needed,
          .reason =
              "the class required, 'EI 60' (Panel_FireRequirement.Resistance), is checked by no table: the tables "
              "hold no period for 'office' in Scotland; document 'FS-1' is of the kind 'other'; needed: fire strategy",
          .also_moves = {"*"}},
         {.label = "a fire strategy that is not in the export",
          .change = together({set_setting("project.jurisdiction", std::string("Scotland")),
                              set_of_panels("Panel_FireRequirement.DocumentId", "FS-2")}),
          .verdict = Verdict::evidence_needed,
          .reason =
              "the class required, 'EI 60' (Panel_FireRequirement.Resistance), is checked by no table: the tables "
              "hold no period for 'office' in Scotland; document 'FS-2' is not in the export "
              "(IfcDocumentReference)",
          .also_moves = {kSeparating, kExternal}},
         {.label = "loads on a panel that carries none",
          .change = set_of_panels("Panel_Structure.PermanentLineLoad", 8000.0),
          .verdict = Verdict::not_assessed,
          .reason = "Pset_WallCommon.LoadBearing is no, and Panel_Structure.PermanentLineLoad is 8000 N/m: one of them "
                    "is wrong",
          .also_moves = {kSeparating, kLoadBearing}},
         {.label = "no class",
          .change = set_required("one hour"),
          .verdict = Verdict::not_assessed,
          .reason = "'one hour' is not a class of EN 13501-2 (IfcPropertySingleValue, line 7)",
          .also_moves = {kSeparating, kLoadBearing}},
         {.label = "not known whether it is load-bearing",
          .change = drop_of_panels("Pset_WallCommon.LoadBearing"),
          .verdict = Verdict::not_assessed,
          .reason = "Pset_WallCommon.LoadBearing",
          .also_moves = {kSeparating, kLoadBearing, kSeals}},
         {.label = "a jurisdiction without tables",
          .change = together({by_tables(6.0), set_setting("project.jurisdiction", std::string("Scotland"))}),
          .verdict = Verdict::not_assessed,
          .reason = "the tables hold no period for 'office' in Scotland; the fire engineer gives the class by "
                    "Panel_FireRequirement.Resistance or setting building.fire_resistance_minutes",
          .also_moves = {kSeparating, kLoadBearing, kExternal}},
     }}};

const RegisterCases kSeparatingCases{
    {.check = kSeparating,
     .sound_project = tested_panel,
     .sound_settings = fire_settings,
     .cases = {
         {.label = "a test that covers the panel", .verdict = Verdict::pass, .value = "EI 60"},
         {.label = "tested for longer", .change = set_tested("EI 90"), .verdict = Verdict::pass, .value = "EI 90"},
         {.label = "tested for less",
          .change = set_tested("EI 45"),
          .verdict = Verdict::fail,
          .value = "EI 45",
          .reason = "the tested class is shorter than the class required"},
         {.label = "long enough in one criterion alone",
          .change = set_tested("EI 30 / E 60"),
          .verdict = Verdict::fail,
          .value = "EI 30 / E 60",
          .reason = "the tested class is shorter than the class required"},
         {.label = "tested for R alone",
          .change = set_tested("R 60"),
          .verdict = Verdict::fail,
          .value = "no EI",
          .reason = "the tested class is shorter than the class required"},
         {.label = "as high as the test",
          .change = set_of_panels("Panel_FireEvidence.MaxHeight", 3.0),
          .verdict = Verdict::pass,
          .value = "EI 60"},
         {.label = "a millimetre higher than the test",
          .change = set_of_panels("Panel_FireEvidence.MaxHeight", 2.999),
          .verdict = Verdict::evidence_needed,
          .value = "EI 60",
          .reason = "height of the panel is outside the field of application (Panel_FireEvidence.MaxHeight)"},
         {.label = "a negative limit of the test",
          .change = set_of_panels("Panel_FireEvidence.MaxHeight", -3.6),
          .verdict = Verdict::evidence_needed,
          .reason = "height: the field of application is not given (Panel_FireEvidence.MaxHeight)"},
         {.label = "fasteners wider than those of the test",
          .change = set_of_parts(PartKind::fastener, "Panel_Fastener.Spacing", 0.151),
          .verdict = Verdict::evidence_needed,
          .reason = "widest spacing of the boards' fasteners of the panel is outside the field of application "
                    "(Panel_FireEvidence.MaxFixingSpacing)"},
         {.label = "a layer thinner than that of the test",
          .change = set_build_up("OSB 12 (620 kg/m3); stone wool 145.001 (50 kg/m3); gypsum 12 (800 kg/m3)"),
          .verdict = Verdict::evidence_needed,
          .reason = "the panel has no layer 'stone wool' of the thickness tested, in its place "
                    "(Panel_FireEvidence.BuildUp)"},
         {.label = "a layer as thick as that of the test",
          .change = set_build_up("OSB 12 (620 kg/m3); stone wool 145 (50 kg/m3); gypsum 12 (800 kg/m3)"),
          .verdict = Verdict::pass,
          .value = "EI 60"},
         {.label = "5 % lighter than the test: scatter",
          .change = set_build_up("OSB 12 (620 kg/m3); stone wool 140 (52.6 kg/m3); gypsum 12 (800 kg/m³)"),
          .verdict = Verdict::pass,
          .value = "EI 60"},
         {.label = "lighter than the test",
          .change = set_build_up("OSB 12 (620 kg/m3); stone wool 140 (52.7 kg/m3); gypsum 12 (800 kg/m3)"),
          .verdict = Verdict::evidence_needed,
          .reason = "'stone wool' has 50 kg/m³ (Pset_MaterialCommon.MassDensity), and the test had 52.7 kg/m³ "
                    "(Panel_FireEvidence.BuildUp)"},
         {.label = "no density tested",
          .change = set_build_up("OSB 12 (620 kg/m3); stone wool 140; gypsum 12 (800 kg/m3)"),
          .verdict = Verdict::evidence_needed,
          .reason = "the density tested of 'stone wool' is not given (Panel_FireEvidence.BuildUp)"},
         {.label = "another product, lighter, of the same name and thickness",
          .change = set_of_material(kGypsum, "Pset_MaterialCommon.MassDensity", 500.0),
          .verdict = Verdict::evidence_needed,
          .reason = "'gypsum' has 500 kg/m³ (Pset_MaterialCommon.MassDensity), and the test had 800 kg/m³ "
                    "(Panel_FireEvidence.BuildUp)"},
         {.label = "100 mm of foam outside, which nobody tested",
          .change = add_outside(0.1, "F"),
          .verdict = Verdict::evidence_needed,
          .reason = "whether the report covers layers beyond those tested is not given "
                    "(Panel_FireEvidence.AddedLayers): 'outer layer' (100 mm, F)",
          .also_moves = {"*"}},
         {.label = "foam where the report covers added layers that do not burn",
          .change = together({add_outside(0.1, "F"), set_of_panels("Panel_FireEvidence.AddedLayers", "A2-s1,d0")}),
          .verdict = Verdict::evidence_needed,
          .reason = "'outer layer' (100 mm, F) was not tested, and the report covers added layers of 'A2-s1,d0' "
                    "(Panel_FireEvidence.AddedLayers)",
          .also_moves = {"*"}},
         {.label = "an added layer where the report covers none",
          .change = together({add_outside(0.1, "A1"), set_of_panels("Panel_FireEvidence.AddedLayers", "none")}),
          .verdict = Verdict::evidence_needed,
          .reason = "'outer layer' (100 mm, A1) was not tested, and the report covers added layers of 'none' "
                    "(Panel_FireEvidence.AddedLayers)",
          .also_moves = {"*"}},
         {.label = "an added layer that the report covers",
          .change = together({add_outside(0.1, "A1"), set_of_panels("Panel_FireEvidence.AddedLayers", "A2-s1,d0")}),
          .verdict = Verdict::pass,
          .value = "EI 60",
          .also_moves = {"*"}},
         {.label = "a film of less than 1 mm and 1 kg/m² is no layer of a test",
          .change = add_outside(0.0009, "E"),
          .verdict = Verdict::pass,
          .value = "EI 60",
          .also_moves = {"*"}},
         {.label = "added layers in words",
          .change = together({add_outside(0.1, "A1"), set_of_panels("Panel_FireEvidence.AddedLayers", "any")}),
          .verdict = Verdict::evidence_needed,
          .reason = "'any' is neither a class of EN 13501-1 nor none (Panel_FireEvidence.AddedLayers)",
          .also_moves = {"*"}},
         {.label = "a layer between those tested",
          .change = set_build_up("OSB 12 (620 kg/m3); gypsum 12 (800 kg/m3)"),
          .verdict = Verdict::evidence_needed,
          .reason = "'studs' (145 mm, A1) stands between the layers tested (Panel_FireEvidence.BuildUp)"},
         {.label = "sheets that are not in the export",
          .change = drop_parts(PartKind::sheet),
          .verdict = Verdict::evidence_needed,
          .reason = "joints of 'inner board' are not known: no sheets with a shape in it; joints of 'outer board' are "
                    "not known: no sheets with a shape in it",
          .also_moves = {kMass}},
         {.label = "declared for longer than tested",
          .change = set_of_panels("Pset_WallCommon.FireRating", "EI 120"),
          .verdict = Verdict::evidence_needed,
          .reason = "'EI 120' is declared (Pset_WallCommon.FireRating), and the test shows EI 60 "
                    "(Panel_FireEvidence.Resistance)"},
         {.label = "declared for less than is required",
          .change = set_of_panels("Pset_WallCommon.FireRating", "EI 30"),
          .verdict = Verdict::evidence_needed,
          .reason = "'EI 30' is declared (Pset_WallCommon.FireRating), and the test shows EI 60 "
                    "(Panel_FireEvidence.Resistance)"},
         {.label = "a report of another kind",
          .change = set_kind(EvidenceKind::product_declaration),
          .verdict = Verdict::evidence_needed,
          .value = "EI 60 declared, not shown",
          .reason = "document 'FT-1' is of the kind 'product declaration'; needed: fire test report or classification "
                    "report",
          .also_moves = {kEvidence}},
         {.label = "a report that has expired",
          .change = set_document(&Evidence::expires, "2026-05-31"),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1' has expired on the assessment date 2026-06-01 (project.assessment_date): it was "
                    "valid until 2026-05-31",
          .also_moves = {kEvidence}},
         {.label = "a report to a standard that gives no European class",
          .change = set_document(&Evidence::standard, "BS 476-22:1987"),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1' is to 'BS 476-22:1987', which gives no class of EN 13501-2",
          .also_moves = {kEvidence}},
         {.label = "loads on a panel that carries none",
          .change = set_of_panels("Panel_Structure.VariableLineLoad", 6000.0),
          .verdict = Verdict::not_assessed,
          .reason =
              "Pset_WallCommon.LoadBearing is no, and Panel_Structure.VariableLineLoad is 6000 N/m: one of them is "
              "wrong",
          .also_moves = {kRequired, kLoadBearing}},
         {.label = "fire from both sides, tested from one",
          .change = together({set_required("EI 60 (i↔o)"), set_tested("EI 60 (i->o)")}),
          .verdict = Verdict::evidence_needed,
          .value = "EI 60 (i→o)",
          .reason = "the test does not state the direction of fire that is required",
          .also_moves = {kRequired}},
         {.label = "fire from both sides, tested from each",
          .change = together({set_required("EI 60 (i↔o)"), set_tested("EI 90 (i→o); EI 60 (o→i)")}),
          .verdict = Verdict::pass,
          .value = "EI 60 (i↔o)",
          .also_moves = {kRequired}},
         {.label = "fire from both sides, tested for less from one",
          .change = together({set_required("EI 60 (i↔o)"), set_tested("EI 60 (i→o); EI 30 (o→i)")}),
          .verdict = Verdict::fail,
          .value = "EI 30 (i↔o)",
          .reason = "the tested class is shorter than the class required",
          .also_moves = {kRequired}},
         {.label = "near the boundary, where the tables ask for both sides, by a test that names none",
          .change = set_setting("building.boundary_distance_m", 0.5),
          .verdict = Verdict::evidence_needed,
          .value = "EI 60",
          .reason = "the test does not state the direction of fire that is required",
          .also_moves = {kExternal, kRequired}},
         {.label = "the side that the tables ask for, by a test from the other",
          .change = set_tested("EI 60 (o→i)"),
          .verdict = Verdict::evidence_needed,
          .value = "EI 60 (o→i)",
          .reason = "the test does not state the direction of fire that is required"},
         {.label = "no side required and no tables, by a test from one side",
          .change = together({by_strategy(EvidenceKind::fire_strategy), set_tested("EI 60 (i→o)")}),
          .verdict = Verdict::evidence_needed,
          .value = "EI 60 (i→o)",
          .reason = "the class required names no side of the fire, and the test is for one side",
          .also_moves = {"*"}},
         {.label = "a class that is declared and not tested",
          .change = together(
              {drop_of_panels("Panel_FireEvidence.Resistance"), set_of_panels("Pset_WallCommon.FireRating", "EI 120")}),
          .verdict = Verdict::evidence_needed,
          .reason = "'EI 120' is declared (Pset_WallCommon.FireRating) but no tested class is given "
                    "(Panel_FireEvidence.Resistance)"},
         {.label = "a report whose file is not there",
          .change = set_status(EvidenceStatus::missing),
          .verdict = Verdict::evidence_needed,
          .value = "EI 60 declared, not shown",
          .reason = "document 'FT-1': missing: no file at that place ('evidence/FT-1.txt')",
          .also_moves = {kEvidence}},
         {.label = "fire from the other side than in the test and the tables",
          .change = together({set_required("EI 60 (o→i)"), set_tested("EI 60 (i→o)")}),
          .verdict = Verdict::evidence_needed,
          .value = "EI 60 (i→o)",
          .reason = "the test does not state the direction of fire that is required; the class required is below the "
                    "EI 15 / E 60 (i→o) of the tables; the fire engineer must give the reason",
          .also_moves = {kRequired}},
         {.label = "no common period of E and I",
          .change = set_required("E 60"),
          .verdict = Verdict::not_assessed,
          .reason = "the class required states no E and I, or no common period for both",
          .also_moves = {kRequired}},
         {.label = "does not see: a class that the report does not hold",
          .change = set_tested("EI 240"),
          .verdict = Verdict::pass,
          .value = "EI 240"},
         {.label = "does not see: another product of the same name, thickness and density",
          .change = set_of_material(kGypsum, "Pset_ManufacturerTypeInformation.ModelLabel", "another board"),
          .verdict = Verdict::pass,
          .value = "EI 60",
          .unchanged = true},
     }}};

const RegisterCases kLoadBearingCases{
    {.check = kLoadBearing,
     .sound_project = tested_load_bearing_panel,
     .sound_settings = fire_settings,
     .cases = {
         {.label = "a test that covers the panel", .verdict = Verdict::pass, .value = "R 60"},
         {
             .label = "tested for less",
             .change = set_tested("R 30 / EI 60"),
             .verdict = Verdict::fail,
             .value = "R 30",
             .reason = "the tested class is shorter than the class required",
         },
         {.label = "loaded as in the test",
          .change = set_of_panels("Panel_FireEvidence.MaxLoad", 14000.0),
          .verdict = Verdict::pass,
          .value = "R 60"},
         {.label = "loaded more than in the test",
          .change = set_of_panels("Panel_FireEvidence.MaxLoad", 13999.0),
          .verdict = Verdict::evidence_needed,
          .value = "R 60",
          .reason = "load, characteristic permanent and variable of the panel is outside the field of application "
                    "(Panel_FireEvidence.MaxLoad)",
          .also_moves = {kSeparating}},
         {.label = "a load that lifts",
          .change = set_of_panels("Panel_Structure.PermanentLineLoad", -1.0),
          .verdict = Verdict::evidence_needed,
          .reason = "load of the panel is negative (Panel_Structure.PermanentLineLoad and VariableLineLoad)",
          .also_moves = {kSeparating}},
         {.label = "no load",
          .change = drop_of_panels("Panel_Structure.VariableLineLoad"),
          .verdict = Verdict::evidence_needed,
          .reason = "load of the panel is not given (Panel_Structure.PermanentLineLoad and VariableLineLoad)",
          .also_moves = {kSeparating}},
         {.label = "load-bearing without a class R required",
          .change = set_required("EI 60"),
          .verdict = Verdict::not_assessed,
          .reason = "the panel is load-bearing but the class required states no R",
          .also_moves = {kRequired, kSeparating}},
         {.label = "carries nothing of the building",
          .change = together({set_of_panels("Pset_WallCommon.LoadBearing", false), set_required("EI 60"),
                              drop_of_panels("Panel_Structure.PermanentLineLoad"),
                              drop_of_panels("Panel_Structure.VariableLineLoad")}),
          .verdict = Verdict::information,
          .value = "not required",
          .also_moves = {kRequired}},
         {.label = "carries nothing of the building, and loads are stated",
          .change = together({set_of_panels("Pset_WallCommon.LoadBearing", false), set_required("EI 60")}),
          .verdict = Verdict::not_assessed,
          .reason = "Pset_WallCommon.LoadBearing is no, and Panel_Structure.PermanentLineLoad is 8000 N/m and "
                    "Panel_Structure.VariableLineLoad is 6000 N/m: one of them is wrong",
          .also_moves = {kRequired, kSeparating}},
         {.label = "load-bearing, and the loads stated are none",
          .change = together({set_of_panels("Panel_Structure.PermanentLineLoad", 0.0),
                              set_of_panels("Panel_Structure.VariableLineLoad", 0.0)}),
          .verdict = Verdict::not_assessed,
          .reason =
              "Pset_WallCommon.LoadBearing is yes, and the line loads of Panel_Structure are 0 N/m: one of them is "
              "wrong",
          .also_moves = {kRequired, kSeparating}},
         {.label = "glass wool, whose studs fail with their board, by the same test",
          .change = set_of_material(kWool, "Panel_Fire.InsulationType", "GLASS_WOOL"),
          .verdict = Verdict::pass,
          .value = "R 60"},
         {.label = "type F gypsum with a tested time and fasteners that pull out before it",
          .change = together({set_of_material(kGypsum, "Panel_Fire.ProtectionRole", "GYPSUM_F"),
                              set_of_material(kGypsum, "Panel_Fire.FailureTime", 2400.0),
                              set_of_parts(PartKind::fastener, "Panel_Fastener.Length", 0.032)}),
          .verdict = Verdict::pass,
          .value = "R 60"},
         {.label = "studs beside a void",
          .change =
              together({change_panels([](Panel& panel) { panel.layers[1].material.reset(); }),
                        drop_parts(PartKind::insulation), set_build_up("OSB 12 (620 kg/m3); gypsum 12 (800 kg/m3)")}),
          .verdict = Verdict::pass,
          .value = "R 60",
          .also_moves = {kMass}},
         {.label = "type F gypsum on both faces beside a void",
          .change = together({change_panels([](Panel& panel) {
                                panel.layers[0].material = kGypsum;
                                panel.layers[1].material.reset();
                              }),
                              drop_parts(PartKind::insulation),
                              set_of_material(kGypsum, "Panel_Fire.ProtectionRole", "GYPSUM_F"),
                              set_of_material(kGypsum, "Panel_Fire.FailureTime", 1800.0),
                              set_build_up("gypsum 12 (800 kg/m3); gypsum 12 (800 kg/m3)")}),
          .verdict = Verdict::pass,
          .value = "R 60",
          .also_moves = {"*"}},
         {.label = "supported between head and sole",
          .change = set_of_panels("Panel_Structure.SupportSpacing", 1.5),
          .verdict = Verdict::pass,
          .value = "R 60"},
         {.label = "after 20 minutes only, by the fire strategy",
          .change = together({set_required("REI 20"), by_strategy(EvidenceKind::fire_strategy)}),
          .verdict = Verdict::pass,
          .value = "R 60",
          .also_moves = {"*"}},
         {.label = "beyond the 60 minutes of the calculation",
          .change = together({set_required("REI 90"), set_tested("REI 90")}),
          .verdict = Verdict::pass,
          .value = "R 90",
          .also_moves = {kRequired, kSeparating}},
     }}};

const RegisterCases kSealsCases{
    {.check = kSeals,
     .sound_project = tested_panel,
     .sound_settings = fire_settings,
     .cases = {
         {.label = "no opening", .verdict = Verdict::information, .value = "none in the export"},
         {.label = "a window",
          .change = [](Project& project, Settings&) { add_window(project); },
          .verdict = Verdict::information,
          .value = "none in the export",
          .also_moves = {kMass}},
         {.label = "an opening that nothing fills",
          .change = change_panels(cut_opening),
          .verdict = Verdict::evidence_needed,
          .reason = "1 penetrations need seals of EI 60 by test (EN 1366-3)",
          .also_moves = {kSeparating}},
         {.label = "a penetration where no class is known",
          .change = together({change_panels(cut_opening), set_required("one hour")}),
          .verdict = Verdict::evidence_needed,
          .reason = "1 penetrations need seals of class not known by test (EN 1366-3)",
          .also_moves = {kRequired, kSeparating, kLoadBearing}},
         {.label = "not known whether it is load-bearing",
          .change = drop_of_panels("Pset_WallCommon.LoadBearing"),
          .verdict = Verdict::not_assessed,
          .reason = "Pset_WallCommon.LoadBearing",
          .also_moves = {kRequired, kSeparating, kLoadBearing}},
     }}};

const RegisterCases kEvidenceCases{
    {.check = kEvidence,
     .sound_project = tested_panel,
     .sound_settings = fire_settings,
     .cases = {
         {.label = "the file is there", .verdict = Verdict::pass, .value = "FT-1: present"},
         {.label = "the file is not there",
          .change = set_status(EvidenceStatus::missing),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1': missing: no file at that place ('evidence/FT-1.txt')",
          .also_moves = {kSeparating}},
         {.label = "a path that leads out of the project",
          .change = set_status(EvidenceStatus::refused),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1': refused: the place lies outside the project folder ('evidence/FT-1.txt')",
          .also_moves = {kSeparating}},
         {.label = "an emptied report",
          .change = set_status(EvidenceStatus::empty),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1': the file is empty ('evidence/FT-1.txt')",
          .also_moves = {kSeparating}},
         {.label = "neither text nor pages",
          .change = set_status(EvidenceStatus::unreadable),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1': the file holds neither text nor pages that can be read ('evidence/FT-1.txt')",
          .also_moves = {kSeparating}},
         {.label = "a text of something else",
          .change = set_status(EvidenceStatus::unnamed),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1': the text does not name its number 'FT-1' ('evidence/FT-1.txt')",
          .also_moves = {kSeparating}},
         {.label = "what is said of it contradicts itself",
          .change = [](Project& project,
                       Settings&) { project.evidence.front().faults = {"it expires before it was issued"}; },
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1': it expires before it was issued",
          .also_moves = {kSeparating}},
         {.label = "of no stated kind",
          .change = set_kind(EvidenceKind::not_stated),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1' is of no stated kind; needed: fire test report or classification report "
                    "(evidence/evidence.csv, column kind)",
          .also_moves = {kSeparating}},
         {.label = "an environmental declaration named as fire report",
          .change = set_kind(EvidenceKind::environmental_declaration),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1' is of the kind 'environmental declaration'; needed: fire test report or "
                    "classification report",
          .also_moves = {kSeparating}},
         {.label = "issued after the day of assessment",
          .change = set_document(&Evidence::issued, "2026-06-02"),
          .verdict = Verdict::evidence_needed,
          .reason =
              "document 'FT-1' is not issued on the assessment date 2026-06-01 (project.assessment_date): its day "
              "is 2026-06-02",
          .also_moves = {kSeparating}},
         {.label = "valid on its last day",
          .change = set_document(&Evidence::expires, "2026-06-01"),
          .verdict = Verdict::pass,
          .value = "FT-1: present"},
         {.label = "valid until a day, and no day of assessment",
          .change = together({set_document(&Evidence::expires, "2027-06-01"), drop_setting("project.assessment_date")}),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1' is valid until 2027-06-01; set the day that counts (setting "
                    "project.assessment_date)",
          .also_moves = {kSeparating}},
         {.label = "no laboratory, no standard, no day, no sponsor and no country",
          .change = together({set_document(&Evidence::issuer, ""), set_document(&Evidence::standard, ""),
                              set_document(&Evidence::issued, ""), set_document(&Evidence::sponsor, ""),
                              set_document(&Evidence::countries, "")}),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1': its record states no issuer (laboratory), no standard, no day of issue, no "
                    "sponsor, no countries for its use (evidence/evidence.csv)",
          .also_moves = {kSeparating}},
         {.label = "made for another, with no word of a permission",
          .change = set_of_panels("Pset_ManufacturerTypeInformation.Manufacturer", "another works"),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1' was made for 'panel works' (its record), and the panel is made by 'another works' "
                    "(Pset_ManufacturerTypeInformation.Manufacturer): a permission to use it is not stated "
                    "(evidence/evidence.csv, column permission: the id of a document of the export)",
          .also_moves = {kSeparating}},
         {.label = "made for another, who permits its use",
          .change =
              together({set_document(&Evidence::sponsor, "another works"), set_document(&Evidence::permission, "PL-1"),
                        [](Project& project, Settings&) { add_document(project, "PL-1", EvidenceKind::other); }}),
          .verdict = Verdict::pass,
          .value = "FT-1: present"},
         {.label = "for use in another country",
          .change = set_document(&Evidence::countries, "Germany, Austria"),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1' may be used in Germany, Austria (its record), and the project is in England "
                    "(setting project.jurisdiction)",
          .also_moves = {kSeparating}},
         {.label = "not in the export",
          .change = forget_documents,
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1' is not in the export (IfcDocumentReference)",
          .also_moves = {kSeparating, kReaction, kExternal}},
         {.label = "none named",
          .change = drop_of_panels("Panel_FireEvidence.DocumentId"),
          .verdict = Verdict::evidence_needed,
          .reason = "no document is named (Panel_FireEvidence.DocumentId)",
          .also_moves = {kSeparating}},
         {.label = "does not see: what the document is called",
          .change = [](Project& project, Settings&) { project.evidence.front().name = "invoice"; },
          .verdict = Verdict::pass,
          .value = "FT-1: present"},
     }}};

}  // namespace
