// Cases of the assembly sheet and of the sizes as built.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/quantities/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::quantities::test;

namespace {

const RegisterCases kAssembly{
    {.check = "quantities.assembly",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "as made, screws not counted", .verdict = Verdict::information, .value = 9.0},
         {.label = "no permitted deviation: the hold points say so",
          .change = drop_setting("quantities.size_tolerance_m"),
          .verdict = Verdict::information,
          .value = 9.0,
          .also_moves = {"quantities.as_built_size"}},
         {.label = "materials of one name stay apart",
          .change = rename_materials("material"),
          .verdict = Verdict::information,
          .value = 9.0,
          .also_moves = {"quantities.costs"}},
         {.label = "no parts",
          .change = drop_all_parts(),
          .verdict = Verdict::not_assessed,
          .reason = "the export gives no parts to assemble in this panel",
          .also_moves = {"*"}},
         {.label = "no width",
          .change = change_panels([](Panel& panel) { panel.width_m.value = 0.0; }),
          .verdict = Verdict::not_assessed,
          .reason = "panel width must be greater than zero (export)",
          .also_moves = {"*"}},
     }}};

const RegisterCases kAsBuiltSize{
    {.check = "quantities.as_built_size",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "a deviation of just what is permitted", .verdict = Verdict::pass, .value = 0.003},
         {.label = "a deviation a hair larger, before the panel is installed",
          .change = together({set_of_panels("Panel_AsBuilt.Width", 2.4031), drop_of_panels("Panel_Install.Date")}),
          .verdict = Verdict::fail,
          .value = 0.0031,
          .reason = "the panel is out of tolerance; check that it fits its place before it leaves the workshop",
          .also_moves = {"quantities.records"}},
         {.label = "a deviation a hair larger",
          .change = set_of_panels("Panel_AsBuilt.Width", 2.4031),
          .verdict = Verdict::fail,
          .value = 0.0031,
          .reason = "the panel is out of tolerance; check that it fits its place where it stands, for it was installed "
                    "on 2026-04-06",
          .also_moves = {"quantities.records"}},
         {.label = "out of square by a hair",
          .change = set_of_panels("Panel_AsBuilt.Diagonal1", 3.3961),
          .verdict = Verdict::fail,
          .value = 0.0051,
          .reason = "the panel is out of square, though its sides are in tolerance; check that it fits its place "
                    "where it stands, for it was installed on 2026-04-06",
          .also_moves = {"quantities.records"}},
         {.label = "a joint just wide enough",
          .change = set_of_panels("Panel_AsBuilt.FrameOpeningHeight", 2.404),
          .verdict = Verdict::pass,
          .value = 0.003},
         {.label = "a joint a hair too narrow",
          .change = set_of_panels("Panel_AsBuilt.FrameOpeningHeight", 2.4039),
          .verdict = Verdict::fail,
          .value = 0.0059,
          .reason = "the joint at the head is 5.9 mm, too narrow for its seal, though the panel is in tolerance; "
                    "survey the opening again and agree a mend of the panel where it stands, for it was installed on "
                    "2026-04-06",
          .also_moves = {"quantities.records"}},
         {.label = "a joint just narrow enough",
          .change = set_of_panels("Panel_AsBuilt.FrameOpeningWidth", 2.463),
          .verdict = Verdict::pass,
          .value = 0.003},
         {.label = "a joint a hair too wide",
          .change = set_of_panels("Panel_AsBuilt.FrameOpeningWidth", 2.4632),
          .verdict = Verdict::fail,
          .value = 0.0301,
          .reason = "the joint at each side is 30.1 mm, too wide for its seal, though the panel is in tolerance; agree "
                    "a packer or another seal of the panel where it stands, for it was installed on 2026-04-06",
          .also_moves = {"quantities.records"}},
         {.label = "no largest joint: a wide one passes",
          .change = together(
              {set_of_panels("Panel_AsBuilt.FrameOpeningWidth", 2.5), drop_setting("quantities.largest_joint_m")}),
          .verdict = Verdict::pass,
          .value = 0.003},
         {.label = "an opening that nobody surveyed passes with a note where nobody asks for its joints",
          .change =
              together({drop_of_panels("Panel_AsBuilt.FrameOpeningWidth"),
                        drop_of_panels("Panel_AsBuilt.FrameOpeningHeight"), drop_setting("quantities.least_joint_m")}),
          .verdict = Verdict::pass,
          .value = 0.003},
         {.label = "an opening that nobody surveyed, though the settings limit its joints",
          .change = together(
              {drop_of_panels("Panel_AsBuilt.FrameOpeningWidth"), drop_of_panels("Panel_AsBuilt.FrameOpeningHeight")}),
          .verdict = Verdict::evidence_needed,
          .reason = "Panel_AsBuilt.FrameOpeningWidth and FrameOpeningHeight are missing: setting "
                    "'quantities.least_joint_m' asks for the survey of an infill panel's opening"},
         {.label = "diagonals that nobody measured, though the settings limit their difference",
          .change = together({drop_of_panels("Panel_AsBuilt.Diagonal1"), drop_of_panels("Panel_AsBuilt.Diagonal2")}),
          .verdict = Verdict::evidence_needed,
          .reason = "Panel_AsBuilt.Diagonal1 and Diagonal2 are missing: setting 'quantities.squareness_tolerance_m' "
                    "asks for them"},
         {.label = "diagonals that nobody measured and nobody asks for",
          .change = together({drop_of_panels("Panel_AsBuilt.Diagonal1"), drop_of_panels("Panel_AsBuilt.Diagonal2"),
                              drop_setting("quantities.squareness_tolerance_m")}),
          .verdict = Verdict::pass,
          .value = 0.003},
         {.label = "equal diagonals that are not those of the sides",
          .change =
              together({set_of_panels("Panel_AsBuilt.Diagonal1", 3.6), set_of_panels("Panel_AsBuilt.Diagonal2", 3.6)}),
          .verdict = Verdict::fail,
          .value = 0.205887,
          .reason = "a diagonal (Panel_AsBuilt.Diagonal1 and Diagonal2) is not that of the target width and height, "
                    "though the sides are in tolerance: measure again, for one of these is wrong",
          .also_moves = {"quantities.records"}},
         {.label = "a size that nobody measured",
          .change = drop_of_panels("Panel_AsBuilt.Width"),
          .verdict = Verdict::not_assessed,
          .reason = "Panel_AsBuilt.Width is missing: measure the panel and state it"},
         {.label = "one diagonal alone",
          .change = drop_of_panels("Panel_AsBuilt.Diagonal2"),
          .verdict = Verdict::not_assessed,
          .reason = "Panel_AsBuilt.Diagonal2 is missing beside the other diagonal"},
         {.label = "half a survey",
          .change = drop_of_panels("Panel_AsBuilt.FrameOpeningHeight"),
          .verdict = Verdict::not_assessed,
          .reason = "Panel_AsBuilt.FrameOpeningHeight is missing beside the width"},
         {.label = "no permitted deviation",
          .change = drop_setting("quantities.size_tolerance_m"),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'quantities.size_tolerance_m' and Pset_Tolerance.OverallTolerance are missing: the "
                    "deviation that the project permits"},
         {.label = "a permitted deviation of the panel itself, as the settings have it",
          .change = set_of_panels("Pset_Tolerance.OverallTolerance", 0.003),
          .verdict = Verdict::pass,
          .value = 0.003},
         {.label = "a permitted deviation of the panel itself where the settings give none",
          .change = together(
              {set_of_panels("Pset_Tolerance.OverallTolerance", 0.002), drop_setting("quantities.size_tolerance_m")}),
          .verdict = Verdict::fail,
          .value = 0.003,
          .reason = "the panel is out of tolerance; check that it fits its place where it stands, for it was installed "
                    "on 2026-04-06",
          .also_moves = {"quantities.records"}},
         {.label = "two permitted deviations",
          .change = set_of_panels("Pset_Tolerance.OverallTolerance", 0.005),
          .verdict = Verdict::not_assessed,
          .reason = "Pset_Tolerance.OverallTolerance of the panel is 5.0 mm and setting 'quantities.size_tolerance_m' "
                    "3.0 mm: correct one of them"},
         {.label = "no least joint",
          .change = drop_setting("quantities.least_joint_m"),
          .verdict = Verdict::not_assessed,
          .reason =
              "setting 'quantities.least_joint_m' is missing: the narrowest joint that the project's seal can fill"},
         {.label = "joints that no opening can keep",
          .change = set_setting("quantities.largest_joint_m", 0.005),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'quantities.largest_joint_m' must not be below 'quantities.least_joint_m'"},
     }}};

}  // namespace
