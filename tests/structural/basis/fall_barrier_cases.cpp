// Cases of the barrier against falling.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kNobodySays =
    "nobody says whether the panel, which stands before a floor above ground, stops persons from falling: state "
    "Panel_Structure.BarrierLoadCategory, the category of use behind it (EN 1991-1-1 table 6.12), or NONE where "
    "something else does";

/// Its foot at this height above the floor of the lowest storey, at 0.
Change stand_at(double foot_m) {
  return [foot_m](Project& project, Settings&) { project.panels.front().frame.origin.z = foot_m; };
}

const RegisterCases kFallBarrier{as_drawn(
    {.check = "structural.fall_barrier",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "at ground level", .verdict = Verdict::information, .value = std::string("at ground level")},
         {.label = "at an upper floor",
          .change = stand_at(3.6),
          .verdict = Verdict::evidence_needed,
          .reason = kNobodySays,
          .also_moves = {"*"}},
         {.label = "no higher than may go unguarded",
          .change = stand_at(0.6),
          .verdict = Verdict::information,
          .value = std::string("at ground level"),
          .also_moves = {"*"}},
         {.label = "past an upper floor",
          .change =
              [](Project& project, Settings&) {
                Storey upper = project.storeys.front();
                upper.elevation_m->value = 1.8;
                project.storeys.push_back(upper);
              },
          .verdict = Verdict::evidence_needed,
          .reason = kNobodySays},
         {.label = "stated to be none",
          .change =
              together({stand_at(3.6), set_of_panels("Panel_Structure.BarrierLoadCategory", std::string("NONE"))}),
          .verdict = Verdict::information,
          .value = std::string("stated to be no barrier"),
          .also_moves = {"*"}},
         {.label = "a barrier",
          .change = together({stand_at(3.6), make_barrier()}),
          .verdict = Verdict::information,
          .value = std::string("a barrier of category C1"),
          .also_moves = {"*"}},
         {.label = "an inner wall",
          .change = together({stand_at(3.6), set_of_panels("Pset_WallCommon.IsExternal", false)}),
          .verdict = Verdict::information,
          .value = std::string("not asked about: no outer wall"),
          .also_moves = {"*"}},
         {.label = "outside of the floor's edge",
          .change = together({stand_at(3.6), set_of_panels("Panel_Identity.Arrangement", std::string("OVERSAIL"))}),
          .verdict = Verdict::information,
          .value = std::string("not asked about: outside of the floor's edge and without an opening"),
          .also_moves = {"*"}},
         {.label = "no barrier that has a load",
          .change = together({set_of_panels("Panel_Structure.BarrierLoadCategory", std::string("NONE")),
                              set_of_panels("Panel_Structure.BarrierLineLoad", 740.0)}),
          .verdict = Verdict::not_assessed,
          .reason =
              "Panel_Structure.BarrierLoadCategory NONE (IfcPropertySingleValue Panel_Structure.BarrierLoadCategory, "
              "0000000000000000000001, line 7) contradicts Panel_Structure.BarrierLineLoad (IfcPropertySingleValue "
              "Panel_Structure.BarrierLineLoad, 0000000000000000000001, line 7): correct one of them",
          .also_moves = {"*"}},
         {.label = "no ground level",
          .change = [](Project& project, Settings&) { project.storeys.clear(); },
          .verdict = Verdict::not_assessed,
          .reason = "setting building.ground_level_m (no storey has an elevation)",
          .also_moves = {"*"}},
     }})};

}  // namespace
