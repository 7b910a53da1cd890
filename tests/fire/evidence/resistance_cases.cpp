// Cases of the class required, of what test evidence shows against it, and of penetrations.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/fire/tested_panel.h"
#include "tests/support/cassette_settings.h"

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
     .sound_settings = cassette_settings,
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
          .also_moves = {kSeparating}},
         {.label = "the panel's own distance counts before the building's",
          .change = together({by_tables(6.0), set_of_panels("Panel_FireRequirement.BoundaryDistance", 0.5)}),
          .verdict = Verdict::information,
          .value = "EI 60 (i↔o)",
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
         {.label = "a class below that of the tables is not seen where they cannot be read",
          .change = together({set_required("EI 30"), drop_setting("project.use")}),
          .verdict = Verdict::information,
          .value = "EI 30",
          .also_moves = {kSeparating, kExternal}},
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
     .sound_settings = cassette_settings,
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
          .change = set_of_panels("Panel_FireEvidence.BuildUp", "OSB 12; stone wool 145.001; gypsum 12"),
          .verdict = Verdict::evidence_needed,
          .reason = "the panel has no layer 'stone wool' of the thickness tested, in its place "
                    "(Panel_FireEvidence.BuildUp)"},
         {.label = "a layer as thick as that of the test",
          .change = set_of_panels("Panel_FireEvidence.BuildUp", "OSB 12; stone wool 145; gypsum 12"),
          .verdict = Verdict::pass,
          .value = "EI 60"},
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
          .reason = "file of document 'FT-1' is missing: 'evidence/FT-1.txt'",
          .also_moves = {kEvidence}},
         {.label = "fire from the other side than in the test",
          .change = together({set_required("EI 60 (o→i)"), set_tested("EI 60 (i→o)")}),
          .verdict = Verdict::evidence_needed,
          .value = "EI 60 (i→o)",
          .reason = "the test does not state the direction of fire that is required",
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
         {.label = "does not see: another product of the same name and thickness",
          .change = set_of_material(kGypsum, "Pset_MaterialCommon.MassDensity", 500.0),
          .verdict = Verdict::pass,
          .value = "EI 60",
          .unchanged = true},
     }}};

const RegisterCases kLoadBearingCases{
    {.check = kLoadBearing,
     .sound_project = tested_load_bearing_panel,
     .sound_settings = cassette_settings,
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
          .also_moves = {kRequired}},
         {.label = "carries nothing of the building",
          .change = together({set_of_panels("Pset_WallCommon.LoadBearing", false), set_required("EI 60")}),
          .verdict = Verdict::information,
          .value = "not required",
          .also_moves = {kRequired}},
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
          .change = together({change_panels([](Panel& panel) { panel.layers[1].material.reset(); }),
                              drop_parts(PartKind::insulation),
                              set_of_panels("Panel_FireEvidence.BuildUp", "OSB 12; gypsum 12")}),
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
                              set_of_panels("Panel_FireEvidence.BuildUp", "gypsum 12; gypsum 12")}),
          .verdict = Verdict::pass,
          .value = "R 60",
          .also_moves = {"*"}},
         {.label = "supported between head and sole",
          .change = set_of_panels("Panel_Structure.SupportSpacing", 1.5),
          .verdict = Verdict::pass,
          .value = "R 60"},
         {.label = "after 20 minutes only",
          .change = set_required("REI 20"),
          .verdict = Verdict::pass,
          .value = "R 60",
          .also_moves = {kRequired, kSeparating}},
         {.label = "beyond the 60 minutes of the calculation",
          .change = together({set_required("REI 90"), set_tested("REI 90")}),
          .verdict = Verdict::pass,
          .value = "R 90",
          .also_moves = {kRequired, kSeparating}},
     }}};

const RegisterCases kSealsCases{
    {.check = kSeals,
     .sound_project = tested_panel,
     .sound_settings = cassette_settings,
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
     .sound_settings = cassette_settings,
     .cases = {
         {.label = "the file is there", .verdict = Verdict::pass, .value = "FT-1: present"},
         {.label = "the file is not there",
          .change = set_status(EvidenceStatus::missing),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1': file missing ('evidence/FT-1.txt')",
          .also_moves = {kSeparating}},
         {.label = "a path that leads out of the project",
          .change = set_status(EvidenceStatus::refused),
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1': refused: outside the project folder ('evidence/FT-1.txt')",
          .also_moves = {kSeparating}},
         {.label = "not in the export",
          .change = forget_documents,
          .verdict = Verdict::evidence_needed,
          .reason = "document 'FT-1' is not in the export (IfcDocumentReference)",
          .also_moves = {kSeparating}},
         {.label = "none named",
          .change = drop_of_panels("Panel_FireEvidence.DocumentId"),
          .verdict = Verdict::evidence_needed,
          .reason = "no document is named (Panel_FireEvidence.DocumentId)",
          .also_moves = {kSeparating}},
         {.label = "does not see: a document about something else",
          .change = [](Project& project, Settings&) { project.evidence.front().name = "invoice"; },
          .verdict = Verdict::pass,
          .value = "FT-1: present"},
     }}};

}  // namespace
