// Cases of the cutting list and of the yield of bars.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/quantities/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::quantities::test;

namespace {

const RegisterCases kCuttingList{
    {.check = "quantities.cutting_list",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::information, .value = 9.0},
         {.label = "a hole at the very end of a member",
          .change = set_of_parts(PartKind::rail, "Panel_Member.Holes", std::string("20@2399.9")),
          .verdict = Verdict::information,
          .value = 9.0},
         {.label = "a hole beyond the end",
          .change = set_of_parts(PartKind::rail, "Panel_Member.Holes", std::string("20@2400")),
          .verdict = Verdict::not_assessed,
          .reason = "part 'sole rail': Panel_Member.Holes is not diameter@distance in mm within the member, as "
                    "'20@300; 20@900'; part 'head rail': Panel_Member.Holes is not diameter@distance in mm within the "
                    "member, as '20@300; 20@900'"},
         {.label = "a notched board is listed by its blank, its drawing unseen",
          .change = change_panels([](Panel& panel) { panel.parts[7].volume_m3->value -= 0.001; }),
          .verdict = Verdict::information,
          .value = 9.0,
          .also_moves = {"quantities.mass", "quantities.centre_of_gravity", "quantities.loads", "quantities.take_off",
                         "quantities.costs"}},
         {.label = "materials of one name stay apart",
          .change = rename_materials("material"),
          .verdict = Verdict::information,
          .value = 9.0,
          .also_moves = {"quantities.costs"}},
         {.label = "a part without shape",
          .change = drop_shape(),
          .verdict = Verdict::not_assessed,
          .reason = "part 'stud 1' has no shape, so its section is not known",
          .also_moves = {"*"}},
         {.label = "no parts",
          .change = drop_all_parts(),
          .verdict = Verdict::not_assessed,
          .reason = "the export gives no parts to cut in this panel",
          .also_moves = {"*"}},
     }}};

const RegisterCases kCuttingListOfProject{
    {.check = "quantities.cutting_list",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases =
         {
             {.label = "the sum of both panels", .verdict = Verdict::information, .value = 18.0},
             {.label = "panels with a part without shape",
              .change = drop_shape(),
              .verdict = Verdict::not_assessed,
              .reason = "not assessed for 2 of 2 panels: 'P01', 'P02'; see each panel for what is missing",
              .also_moves = {"*"}},
         },
     .of_project = true}};

const RegisterCases kStockYield{
    {.check = "quantities.stock_yield",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "two pieces from each bar of 4.8 m", .verdict = Verdict::information, .value = 97.32142857142857},
         {.label = "bars as long as their pieces",
          .change = together(
              {set_setting("quantities.stock_lengths_m.0", 2.31), set_setting("quantities.stock_lengths_m.1", 2.4)}),
          .verdict = Verdict::information,
          .value = 100.0},
         {.label = "bars a hair shorter than some pieces",
          .change = together({set_setting("quantities.stock_lengths_m.0", 2.31),
                              set_setting("quantities.stock_lengths_m.1", 2.399999)}),
          .verdict = Verdict::not_assessed,
          .reason = "part 'sole rail' of panel 'P01' is longer than any stock length; add a longer one to "
                    "'quantities.stock_lengths_m' or joint the member; part 'head rail' of panel 'P01' is longer than "
                    "any stock length; add a longer one to 'quantities.stock_lengths_m' or joint the member; part "
                    "'sole rail' of panel 'P02' is longer than any stock length; add a longer one to "
                    "'quantities.stock_lengths_m' or joint the member; part 'head rail' of panel 'P02' is longer than "
                    "any stock length; add a longer one to 'quantities.stock_lengths_m' or joint the member",
          .also_moves = {"quantities.waste"}},
         {.label = "defects are cut away from each bar",
          .change = set_setting("quantities.stock_defect_allowance_m", 0.1),
          .verdict = Verdict::information,
          .value = 90.83333333333333},
         {.label = "defects that leave nothing of a bar",
          .change = set_setting("quantities.stock_defect_allowance_m", 4.8),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'quantities.stock_defect_allowance_m' must be at least 0 and less than every stock length",
          .also_moves = {"quantities.waste"}},
         {.label = "no saw cut stated",
          .change = drop_setting("quantities.saw_kerf_m"),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'quantities.saw_kerf_m' is missing",
          .also_moves = {"quantities.waste", "quantities.sheet_yield"}},
         {.label = "materials of one name stay apart",
          .change = rename_materials("material"),
          .verdict = Verdict::information,
          .value = 97.32142857142857,
          .also_moves = {"quantities.waste", "quantities.costs", "quantities.sheet_yield"}},
         {.label = "no framing",
          .change = together({drop_parts(PartKind::stud), drop_parts(PartKind::rail)}),
          .verdict = Verdict::not_assessed,
          .reason = "the export gives no framing members",
          .also_moves = {"*"}},
     }}};

}  // namespace
