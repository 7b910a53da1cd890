// Cases of the yield of sheets.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/quantities/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::quantities::test;

namespace {

const RegisterCases kSheetYield{
    {.check = "quantities.sheet_yield",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "sheets as large as their pieces", .verdict = Verdict::information, .value = 100.0},
         {.label = "larger sheets",
          .change = together({set_setting("quantities.sheet_sizes_m.0.width", 1.25),
                              set_setting("quantities.sheet_sizes_m.0.length", 2.5)}),
          .verdict = Verdict::information,
          .value = 92.16},
         {.label = "sheets a hair too narrow",
          .change = set_setting("quantities.sheet_sizes_m.0.width", 1.199999),
          .verdict = Verdict::not_assessed,
          .reason = "part 'board 1' of panel 'P01' (1200 × 2400 mm) fits no sheet of 'particle board'; add a larger "
                    "one to 'quantities.sheet_sizes_m', let it turn with 'may_turn', or joint the part; part 'board 2' "
                    "of panel 'P01' (1200 × 2400 mm) fits no sheet of 'particle board'; add a larger one to "
                    "'quantities.sheet_sizes_m', let it turn with 'may_turn', or joint the part; part 'board 1' of "
                    "panel 'P02' (1200 × 2400 mm) fits no sheet of 'particle board'; add a larger one to "
                    "'quantities.sheet_sizes_m', let it turn with 'may_turn', or joint the part; part 'board 2' of "
                    "panel 'P02' (1200 × 2400 mm) fits no sheet of 'particle board'; add a larger one to "
                    "'quantities.sheet_sizes_m', let it turn with 'may_turn', or joint the part",
          .also_moves = {"quantities.waste"}},
         {.label = "sheets whose grain lies across",
          .change = together({set_setting("quantities.sheet_sizes_m.0.width", 2.4),
                              set_setting("quantities.sheet_sizes_m.0.length", 1.2)}),
          .verdict = Verdict::not_assessed,
          .reason = "part 'board 1' of panel 'P01' (1200 × 2400 mm) fits no sheet of 'particle board'; add a larger "
                    "one to 'quantities.sheet_sizes_m', let it turn with 'may_turn', or joint the part; part 'board 2' "
                    "of panel 'P01' (1200 × 2400 mm) fits no sheet of 'particle board'; add a larger one to "
                    "'quantities.sheet_sizes_m', let it turn with 'may_turn', or joint the part; part 'board 1' of "
                    "panel 'P02' (1200 × 2400 mm) fits no sheet of 'particle board'; add a larger one to "
                    "'quantities.sheet_sizes_m', let it turn with 'may_turn', or joint the part; part 'board 2' of "
                    "panel 'P02' (1200 × 2400 mm) fits no sheet of 'particle board'; add a larger one to "
                    "'quantities.sheet_sizes_m', let it turn with 'may_turn', or joint the part",
          .also_moves = {"quantities.waste"}},
         {.label = "the same where pieces may be turned",
          .change = together({set_setting("quantities.sheet_sizes_m.0.width", 2.4),
                              set_setting("quantities.sheet_sizes_m.0.length", 1.2),
                              set_setting("quantities.sheet_sizes_m.0.may_turn", true)}),
          .verdict = Verdict::information,
          .value = 100.0},
         {.label = "no sheets listed",
          .change = drop_settings("quantities.sheet_sizes_m."),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'quantities.sheet_sizes_m' has no sheet of 'particle board': an entry with its material, "
                    "width and length",
          .also_moves = {"quantities.waste"}},
         {.label = "sheets of a name that two materials bear",
          .change = [](Project& project, Settings&) { project.materials[0].name = "particle board"; },
          .verdict = Verdict::not_assessed,
          .reason = "setting 'quantities.sheet_sizes_m.0.material' is 'particle board', the name of 2 materials: give "
                    "each a name of its own in the export",
          .also_moves = {"quantities.waste", "quantities.costs"}},
         {.label = "half a layout to list",
          .change = set_setting("quantities.sheet_layouts_listed", 1.5),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'quantities.sheet_layouts_listed' must be a whole number of at least 0",
          .also_moves = {"quantities.waste"}},
         {.label = "no sheets in the panels",
          .change = drop_parts(PartKind::sheet),
          .verdict = Verdict::not_assessed,
          .reason = "the export gives no sheets, slabs or cladding boards",
          .also_moves = {"*"}},
     }}};

}  // namespace
