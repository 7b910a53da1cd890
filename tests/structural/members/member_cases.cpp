// Cases of bearing, rails and the members round openings.
#include <cmath>

#include "core/api/testing/check_cases.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/sound_project.h"
#include "tests/structural/windowed_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

const CheckCase kOneName{.label = "all materials of one name",
                         .change = rename_materials("material"),
                         .verdict = Verdict::pass,
                         .unchanged = true};

const RegisterCases kBearing{
    as_drawn({.check = "structural.bearing",
              .sound_project = sound_project,
              .sound_settings = sound_settings,
              .cases = {
                  {.label = "as made", .verdict = Verdict::pass},
                  {.label = "weight alone", .change = make_infill(), .verdict = Verdict::pass, .also_moves = {"*"}},
                  {.label = "ten times the load on the head",
                   .change = set_of_panels("Panel_Structure.PermanentLineLoad", 80000.0),
                   .verdict = Verdict::fail,
                   .reason = "'S3' presses too hard on 'sole'",
                   .also_moves = {"*"}},
                  {.label = "no rail under the studs",
                   .change = together({drop_parts(PartKind::rail), change_panels([](Panel& panel) {
                                         for (Part& part : panel.parts) {
                                           if (part.kind != PartKind::stud) continue;
                                           part.bounds->min.z = 0.0;
                                           part.bounds->max.z = panel.height_m.value;
                                           part.volume_m3.value().value *= panel.height_m.value / 2.91;
                                         }
                                       })}),
                   .verdict = Verdict::not_assessed,
                   .reason = "no stud or post stands on a rail (IfcMember PLATE with a box)",
                   .also_moves = {"*"}},
                  kOneName,
              }})};

const RegisterCases kRails{as_drawn(
    {.check = "structural.rail_bending",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::pass},
         {.label = "no load on the head", .change = make_infill(), .verdict = Verdict::pass, .also_moves = {"*"}},
         {.label = "persons leaning on the panel",
          .change = make_barrier(),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "brackets nearer to each other than the studs",
          .change = set_of_parts(PartKind::fastener, "Panel_Fastener.Spacing", 0.1),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "studs at less than half of the brackets' spacing",
          .change = together({make_infill(), change_panels([](Panel& panel) {
                                for (Part& part : panel.parts) {
                                  if (part.object_type == "bracket") set_fastener(part, "Spacing", 1.9);
                                }
                              })}),
          .verdict = Verdict::pass,
          .also_moves = {"*"}},
         {.label = "six times the wind",
          .change = wind_of(12000.0),
          .verdict = Verdict::fail,
          .reason = "'head' is overloaded between its fixings",
          .also_moves = {"*"}},
         {.label = "no spacing of the fixings",
          .change = together({drop_setting("structural.fixing_spacing_m"), change_panels([](Panel& panel) {
                                for (Part& part : panel.parts) {
                                  if (part.object_type == "bracket") {
                                    remove(part.properties, "Panel_Fastener.Spacing");
                                  }
                                }
                              })}),
          .verdict = Verdict::not_assessed,
          .reason = "spacing of the fixings to the frame (Panel_Fastener.Spacing of brackets or anchors, or setting "
                    "structural.fixing_spacing_m)",
          .also_moves = {"*"}},
         kOneName,
     }})};

/// A lintel that nothing holds at its top: clear of the sheets.
Change free_lintels(double width_m) {
  return [width_m](Project& project, Settings&) {
    Box3& inner = *part_named(project, "inner lintel").bounds;
    inner.min.y = 0.030;
    inner.max.y = 0.030 + width_m;
    Box3& outer = *part_named(project, "outer lintel").bounds;
    outer.min.y = 0.112;
    outer.max.y = 0.112 + width_m;
  };
}

const RegisterCases kLintels{
    as_drawn({.check = "structural.lintel_bending",
              .sound_project = project_with_window,
              .sound_settings = sound_settings,
              .cases = {
                  {.label = "a window", .verdict = Verdict::pass},
                  {.label = "lintels that nothing holds, of little slenderness",
                   .change = free_lintels(0.035),
                   .verdict = Verdict::pass,
                   .also_moves = {"*"}},
                  {.label = "slender ones",
                   .change = free_lintels(0.020),
                   .verdict = Verdict::fail,
                   .reason = "'inner lintel' at opening 'O1' is overloaded or bends too far",
                   .also_moves = {"*"}},
                  {.label = "the weight of the panel and wind alone",
                   .change = make_infill(),
                   .verdict = Verdict::pass,
                   .also_moves = {"*"}},
                  {.label = "ten times the load on the head",
                   .change = set_of_panels("Panel_Structure.PermanentLineLoad", 80000.0),
                   .verdict = Verdict::fail,
                   .reason = "'inner lintel' at opening 'O1' is overloaded or bends too far",
                   .also_moves = {"*"}},
                  {.label = "no lintel over the opening",
                   .change = drop_parts(PartKind::lintel),
                   .verdict = Verdict::not_assessed,
                   .reason = "no lintel spans opening 'O1' (IfcMember LINTEL over its whole width)",
                   .also_moves = {"*"}},
                  {.label = "no opening",
                   .change = change_panels([](Panel& panel) { panel.openings.clear(); }),
                   .verdict = Verdict::information,
                   .value = std::string("no opening"),
                   .also_moves = {"*"}},
                  kOneName,
              }})};

}  // namespace
